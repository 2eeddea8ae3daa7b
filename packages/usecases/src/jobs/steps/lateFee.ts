// What a move or a cancelling costs that comes late, by the rules under which the job was booked.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
import { chargeOf, isLate, type Charge } from '@backsight/domain/sitework/ending';
import type { Reader } from '@backsight/store/database';
import { findFeeLines, type Job } from '@backsight/store/jobs/jobs';
import { deskRulesOf } from './deskRules.ts';

export type LateFee = Charge & { hours: number; lines: readonly FeeLine[] };
export type Waiver = { waive?: boolean | undefined; waiver?: string | undefined };

/** Null where nothing is charged: not booked, in time, or no such rule. */
export async function lateFeeOf(
  reader: Reader,
  job: Pick<Job, 'id' | 'state' | 'rulesId' | 'scheduleId'>,
  when: { startsAt: Date; now: Date },
  what: 'movePercent' | 'cancelPercent',
): Promise<LateFee | null> {
  if (job.state !== 'booked') return null;
  const { late } = await deskRulesOf(reader, job);
  if (late[what] === 0 || !isLate(when.startsAt, when.now, late.hours)) return null;
  const lines = await findFeeLines(reader, job.id);
  const charge = chargeOf(
    lines.reduce((sum, { cents }) => sum + cents, 0),
    late[what],
  );
  return charge.cents > 0 ? { ...charge, hours: late.hours, lines } : null;
}

/** A waiver of what is due says why. */
export const unsaidWaiver = (fee: LateFee | null, { waive, waiver }: Waiver): Refusal | null =>
  fee && waive && (waiver ?? '').trim() === '' ? refuse('waiver-reason', {}, 'waiver') : null;
