// What a move makes of the fee: the price at the new time, kept as agreed where the office says why, and the charge for moving late.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { feeDifference, type LineChange } from '@backsight/domain/jobs/difference';
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findFeeLines, type Job } from '@backsight/store/jobs/jobs';
import { keepText } from '@backsight/store/text';
import type { VisitRow } from '@backsight/store/schedule/visits';
import type { Work } from '../../run.ts';
import { changeFee } from './changeFee.ts';
import { feeOf } from './feeLines.ts';
import type { LateFee, Waiver } from './lateFee.ts';
import { noteJob, type JobContext } from './loadJob.ts';
import { priceAt } from './priceAt.ts';

/** The fee now and at the new time, in cents, and the lines that differ; `changed` when the sum does. */
export type MoveFee = {
  before: FeeLine[];
  lines: FeeLine[];
  beforeCents: number;
  afterCents: number;
  changes: LineChange[];
  changed: boolean;
};

/** The rest of the house and of what was ordered stays: only the day, the hour and the way there can differ. */
export async function feeAt(reader: Reader, context: JobContext, startsAt: Date, now: Date): Promise<Outcome<MoveFee>> {
  const priced = await priceAt(reader, context, { facts: context.job.facts, startsAt, now });
  if (!priced.ok) return priced;
  const before = await findFeeLines(reader, context.job.id);
  const { lines } = priced.value;
  const [beforeCents, afterCents] = [feeOf(before), feeOf(lines)];
  return accept({ before, lines, beforeCents, afterCents, changes: feeDifference(before, lines), changed: beforeCents !== afterCents });
}

/** `toldCents` is the fee at the new time as it was shown, without a charge for moving late; null when none was. */
export type FeeWish = { keepFee?: boolean | undefined; keptBecause?: string | undefined; toldCents?: number | null | undefined };

/** Refusals: fee-kept-reason, fee-at-new-time. */
export function asShown(fee: MoveFee, { keepFee = false, keptBecause = '', toldCents = null }: FeeWish): Outcome<null> {
  if (!fee.changed) return accept(null);
  if (keepFee) return keptBecause.trim() === '' ? refuse('fee-kept-reason', {}, 'keptBecause') : accept(null);
  const { afterCents } = fee;
  return toldCents === null || toldCents === afterCents
    ? accept(null)
    : refuse('fee-at-new-time', { toldUsd: formatUsd(toldCents), nowUsd: formatUsd(afterCents), nowCents: afterCents });
}

type Moving = { job: Job; visit: VisitRow; fee: MoveFee; late: LateFee | null; wish: FeeWish & Waiver };
export type MoveCost = { words: string | null; feeChanged: boolean; warnings: Warning[] };

/** Sets the fee after a move, and notes what was decided; answers what the clients are told of it. */
export async function chargeMove(work: Work, { job, visit, fee, late, wish }: Moving): Promise<Outcome<MoveCost>> {
  const kept = fee.changed && (wish.keepFee ?? false);
  if (late) await noteLate(work, job, late, wish);
  if (fee.changed) await noteFee(work, job, fee, kept ? (wish.keptBecause ?? '') : null);
  const charged = late && !wish.waive ? late : null;
  const lateLine = charged && {
    rule: `moved-${visit.id}-${visit.version}`,
    label: 'Moved late',
    reason: charged.because,
    cents: charged.cents,
  };
  const lines = [...(kept ? fee.before : fee.lines), ...(lateLine ? [lateLine] : [])];
  if (feeDifference(fee.before, lines).length === 0) return accept({ words: null, feeChanged: false, warnings: [] });
  const invoiced = await changeFee(work, job.id, lines);
  if (!invoiced.ok) return invoiced;
  const feeChanged = fee.changed && !kept;
  const words = [feeChanged ? newFeeWords(fee) : null, charged ? lateWords(charged) : null].filter((text) => text !== null);
  return accept({ words: words.length > 0 ? words.join(' ') : null, feeChanged, warnings: overPaid(invoiced.value.toGiveBackCents) });
}

const newFeeWords = ({ beforeCents, afterCents }: MoveFee): string =>
  `At the new time the fee is ${formatUsd(afterCents)} instead of ${formatUsd(beforeCents)}.`;
const lateWords = ({ hours, cents }: LateFee): string =>
  `It was moved less than ${hours} hours before, so ${formatUsd(cents)} is charged besides the fee.`;
const overPaid = (cents: number): Warning[] =>
  cents > 0 ? [{ code: 'paid-above-fee', text: `More was paid than the fee is now: ${formatUsd(cents)} is to be given back.` }] : [];

async function noteLate(work: Work, job: Job, late: LateFee, { waive = false, waiver = '' }: Waiver): Promise<void> {
  const textId = waive ? await keepText(work.tx, work.newId(), waiver, work.now) : undefined;
  const cents = waive ? 0 : late.cents;
  const details = { what: 'moved_late', percent: late.percent, cents, waived: waive, waivedCents: waive ? late.cents : 0 };
  await noteJob(work, job.id, job.state, { kind: 'fee_decided', details }, textId);
}

/** `because` null: the fee follows the new time. A dearer time at the old fee is a charge that was waived. */
async function noteFee(work: Work, job: Job, { beforeCents, afterCents }: MoveFee, because: string | null): Promise<void> {
  const textId = because === null ? undefined : await keepText(work.tx, work.newId(), because, work.now);
  const less = because === null ? 0 : Math.max(0, afterCents - beforeCents);
  const what = because === null ? 'new_time' : 'fee_kept';
  const details = { what, percent: 0, cents: because === null ? afterCents : beforeCents, waived: less > 0, waivedCents: less };
  await noteJob(work, job.id, job.state, { kind: 'fee_decided', details }, textId);
}
