// What a move or a cancelling costs that comes late, by the rules under which the job was booked.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
import { lateCharge, type LateCharge } from '@backsight/domain/jobs/lateFees';
import type { Reader } from '@backsight/store/database';
import { findFeeLines, type Job } from '@backsight/store/jobs/jobs';
import { deskRulesOf } from './deskRules.ts';

export type LateFee = LateCharge & { lines: readonly FeeLine[] };
export type Waiver = { waive?: boolean | undefined; waiver?: string | undefined };

/** Null where nothing is charged: not booked, in time, or no such rule. */
export async function lateFeeOf(
  reader: Reader,
  job: Pick<Job, 'id' | 'state' | 'rulesId' | 'scheduleId'>,
  when: { startsAt: Date; now: Date },
  what: 'move' | 'cancel',
): Promise<LateFee | null> {
  if (job.state !== 'booked') return null;
  const { late } = await deskRulesOf(reader, job);
  const lines = await findFeeLines(reader, job.id);
  const charge = lateCharge(late, what, { ...when, feeCents: lines.reduce((sum, { cents }) => sum + cents, 0) });
  return charge && { ...charge, lines };
}

/** A waiver of what is due says why. */
export const unsaidWaiver = (fee: LateFee | null, { waive, waiver }: Waiver): Refusal | null =>
  fee && waive && (waiver ?? '').trim() === '' ? refuse('waiver-reason', {}, 'waiver') : null;
