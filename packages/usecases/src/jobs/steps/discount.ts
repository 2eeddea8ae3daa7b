// Whether somebody may give a discount, and putting it on file.
import { discountSaid, mayDiscount, type Discount, type DiscountSaid } from '@backsight/domain/fees/discount';
import { discountLimitFor } from '@backsight/domain/fees/limits';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Role } from '@backsight/domain/people/roles';
import type { Reader } from '@backsight/store/database';
import { saveDiscount } from '@backsight/store/fees/discounts';
import { listLimits } from '@backsight/store/firm/authority';
import type { Actor, Work } from '../../run.ts';

export const rolesOf = (actor: Actor): readonly Role[] => (actor.kind === 'person' ? actor.roles : []);

/** `feeCents` is the fee without it. Refusals: discount-above-fee, discount-limit. */
export async function allowedDiscount(
  reader: Reader,
  said: DiscountSaid | null | undefined,
  { feeCents, roles }: { feeCents: number; roles: readonly Role[] },
): Promise<Outcome<Discount | null>> {
  const discount = said ? discountSaid(said) : null;
  if (discount === null) return accept(null);
  const limitCents = discountLimitFor(roles, await listLimits(reader));
  const allowed = mayDiscount(discount, { feeCents, limitCents });
  return allowed.ok ? accept(discount) : allowed;
}

/** A reason is kept with every discount. */
export const unsaidReason = (said: DiscountSaid | null | undefined): Outcome<null> =>
  said && said.reason.trim() === '' ? refuse('discount-reason', {}, 'reason') : accept(null);

export const keepDiscount = (work: Work, jobId: string, said: DiscountSaid): Promise<void> =>
  saveDiscount(work.tx, {
    ...said,
    id: work.newId(),
    jobId,
    at: work.now,
    recordedBy: work.actor.kind === 'person' ? work.actor.id : null,
  });
