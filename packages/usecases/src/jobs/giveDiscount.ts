// A discount given by hand on a job that is on file, another one, or none any more; with its reason, until the visit begins.
import { discountBase, discounted, type DiscountSaid } from '@backsight/domain/fees/discount';
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { mayStillDiscount } from '@backsight/domain/jobs/decide';
import { feeDifference } from '@backsight/domain/jobs/difference';
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findFrozen } from '@backsight/store/jobs/catalog';
import { findFeeLines, findJob, lockJob, type Job } from '@backsight/store/jobs/jobs';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { changeFee, supersede } from './steps/changeFee.ts';
import { allowedDiscount, keepDiscount, rolesOf, unsaidReason } from './steps/discount.ts';
import { feeOf } from './steps/feeLines.ts';
import { noteJob } from './steps/loadJob.ts';
import { signedBy } from './steps/signedBy.ts';

type Anew = { before: FeeLine[]; lines: FeeLine[] };

async function anew(reader: Reader, job: Job, said: DiscountSaid, roles: readonly Role[]): Promise<Outcome<Anew>> {
  const allowed = mayStillDiscount(job.state);
  if (!allowed.ok) return allowed;
  const schedule = (await findFrozen(reader, job)).schedule!.body;
  const before = await findFeeLines(reader, job.id);
  const discount = await allowedDiscount(reader, said, { feeCents: discountBase(schedule, before), roles });
  if (!discount.ok) return discount;
  const lines = discounted(schedule, before, discount.value);
  return feeDifference(before, lines).length === 0 ? refuse('nothing-changed') : accept({ before, lines });
}

/** What the discount would make of the fee, and whether somebody signed for the fee before; changes nothing. */
export async function previewDiscount(reader: Reader, jobId: string, said: DiscountSaid, roles: readonly Role[]) {
  const job = await findJob(reader, jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const found = await anew(reader, job, said, roles);
  if (!found.ok) return found;
  const { before, lines } = found.value;
  return accept({
    beforeCents: feeOf(before),
    afterCents: feeOf(lines),
    fee: feeDifference(before, lines),
    signed: await signedBy(reader, jobId),
  });
}

export type DiscountInput = DiscountSaid & { id: string; version: number; publicUrl: string };
export type Discounted = { id: string; version: number; totalCents: number; warnings: Warning[] };

/** Refusals: discount-reason, discount-late, discount-above-fee, discount-limit, discount-paid, nothing-changed. */
export const giveDiscount: Act<DiscountInput, Discounted> = { operation: 'jobs.discount', run: give };

async function give(work: Work, { id, version, publicUrl, ...said }: DiscountInput): Promise<Outcome<Discounted>> {
  const job = await lockJob(work.tx, id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== version) return refuse('changed-meanwhile');
  const reason = unsaidReason(said);
  if (!reason.ok) return reason;
  const found = await anew(work.tx, job, said, rolesOf(work.actor));
  if (!found.ok) return found;
  await keepDiscount(work, id, said);
  const changed = await changeFee(work, id, found.value.lines);
  if (!changed.ok) return changed;
  if (changed.value.toGiveBackCents > 0) return refuse('discount-paid');
  const { warnings } = await supersede(work, job, publicUrl);
  const textId = await keepText(work.tx, work.newId(), said.reason, work.now);
  const { cents, percent } = said;
  const details = { percent, cents, beforeCents: feeOf(found.value.before), afterCents: feeOf(found.value.lines) };
  const next = await noteJob(work, id, job.state, { kind: 'discounted', details }, textId);
  await work.did('job', id, details);
  return accept({ id, version: next, totalCents: details.afterCents, warnings }, warnings);
}
