// What work already done is likely to cost beyond what is paid and set aside: one figure for the owner's page and for scenarios.
import { incurred } from '@backsight/domain/callbacks/money';
import { development, type FigureRow } from '@backsight/domain/liability/development/triangle';
import { shortUsd } from '@backsight/domain/shared/money';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { cannot, type Estimate } from '@backsight/statistics/estimate';
import type { Reader } from '@backsight/store/database';
import { estimate } from './estimate.ts';
import { knownOn, type AsOf } from './knownOn.ts';

/** `amounts`: cost as it developed by quarter of inspection; `callbacks_by_cost`: callbacks still to come times what one cost so far. */
export type OutstandingMethod = 'amounts' | 'callbacks_by_cost';

export type Outstanding = Estimate<{
  method: OutstandingMethod;
  /** Expected cost that is neither paid nor set aside yet, less what will come back; whole cents. Below 0: less than is set aside. */
  amountCents: number;
  standardErrorCents: number | null;
  /** Where it lies in about 3 of 4 such cases; null where that cannot be told. */
  rangeCents: { lower: number; upper: number } | null;
  /** Callbacks still expected of work already done; null where that cannot be told. */
  callbacksToCome: number | null;
  /** Set aside already, for what is known. */
  reservedCents: number;
  sentence: string;
}>;

/** The same, read: today or as it was known at the end of a past day (in the firm's zone). A day that has not come is refused. */
export async function readOutstanding(reader: Reader, asOf: AsOf): Promise<Outcome<Outstanding>> {
  const known = await knownOn(reader, asOf);
  return known.ok ? accept(outstanding(known.value.rows, known.value.day)) : known;
}

/**
 * Expected cost still to come for work done by a day, from figures by quarter of inspection that were known then. Where amounts are too
 * few to show how they develop, callbacks still to come times the mean cost of a callback (J. Friedland, "Estimating Unpaid Claims
 * Using Basic Techniques" (2010), chapter 11), without a standard error. A planning estimate, not an actuarial opinion.
 */
export function outstanding(rows: readonly FigureRow[], asOf: string): Outstanding {
  const sumOf = (measure: string): number => rows.reduce((sum, row) => (row.measure === measure ? sum + row.amount : sum), 0);
  const reservedCents = sumOf('reserved');
  const counts = estimate(development(rows, { grain: 'quarter', of: 'callbacks', asOf }), { choice: 'each' });
  const callbacksToCome = counts.ok ? counts.totals.unreported : null;
  const money = estimate(development(rows, { grain: 'quarter', of: 'incurred', asOf }), { choice: 'each' });
  if (money.ok) {
    const { unreported, standardError, range } = money.totals;
    const found = {
      amountCents: Math.round(unreported),
      standardErrorCents: standardError === null ? null : Math.round(standardError),
      rangeCents: range && { lower: Math.round(range.lower), upper: Math.round(range.upper) },
    };
    return { ok: true, method: 'amounts', ...found, callbacksToCome, reservedCents, sentence: sentenceOf(found, money.noError) };
  }
  const callbacks = sumOf('callbacks');
  if (!counts.ok || callbacks <= 0) return money;
  const [paidCents, recoveredCents] = [sumOf('paid'), sumOf('recovered')];
  const each = incurred({ paidCents, reservedCents, recoveredCents }) / callbacks;
  if (each < 0) return cannot('below_zero', 'more came back than was ever paid or set aside');
  const toCome = counts.totals.unreported;
  const amountCents = Math.round(toCome * each);
  return {
    ok: true,
    method: 'callbacks_by_cost',
    amountCents,
    standardErrorCents: null,
    rangeCents: null,
    callbacksToCome,
    reservedCents,
    sentence: `About ${shortUsd(amountCents)}: ${toCome.toFixed(1)} callbacks still to come, at ${shortUsd(Math.round(each))} each as so far. Too few cost anything to show how costs grow, so that no range can be given.`,
  };
}

type Found = { amountCents: number; rangeCents: { lower: number; upper: number } | null };

function sentenceOf({ amountCents, rangeCents }: Found, noError: string | null): string {
  if (amountCents < 0)
    return `About ${shortUsd(-amountCents)} less than is set aside: of what was set aside before, as much usually came free again.`;
  const about = `About ${shortUsd(amountCents)} beyond what is paid and set aside, from how costs grew after earlier quarters`;
  return rangeCents
    ? `${about}; in about 3 of 4 such cases between ${shortUsd(rangeCents.lower)} and ${shortUsd(rangeCents.upper)}.`
    : `${about}. No range can be given${noError ? `: ${noError.replace(/^C/, 'c')}` : '.'}`;
}
