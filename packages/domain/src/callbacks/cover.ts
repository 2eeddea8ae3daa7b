// What of a policy is used: the deductible of one callback, and the most for all claims of the period. All amounts are cents.

/** `paidCents` left the firm; `othersCents` came back from others than the insurer; `insurerCents` came from the insurer, `directCents` it paid itself. */
export type Spent = { paidCents: number; othersCents: number; insurerCents: number; directCents: number };

/** `usedCents` of the deductible; `beyondCents` is what the insurer bears of what the firm paid, `toComeCents` what of that has not come yet. */
export type CoverUse = { usedCents: number; beyondCents: number; toComeCents: number };

/** The firm bears its loss (paid, less what others than the insurer gave back) up to the deductible; up to the limit for one claim the insurer bears the rest. */
export function coverUse(
  { paidCents, othersCents, insurerCents, directCents }: Spent,
  policy: { deductibleCents: number; limitCents: number },
): CoverUse {
  const loss = Math.max(0, paidCents - othersCents);
  const usedCents = Math.min(loss, policy.deductibleCents);
  const beyondCents = Math.min(loss - usedCents, Math.max(0, policy.limitCents - directCents));
  return { usedCents, beyondCents, toComeCents: Math.max(0, beyondCents - insurerCents) };
}

/** What is left for all claims of the period after what the insurer paid; null = the policy names no such limit. */
export const aggregateLeft = (aggregateCents: number | null, insurerPaidCents: number): number | null =>
  aggregateCents === null ? null : Math.max(0, aggregateCents - insurerPaidCents);
