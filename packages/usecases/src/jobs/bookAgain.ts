// Books a job again whose visit ended early: the same house, people and papers, another start, and what it costs.
import { mayBookAgain } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { feeAfterRebooking, rebookedWords } from '@backsight/domain/sitework/ending';
import { findFeeLines, findOpenNeeds, lockJob, type Job } from '@backsight/store/jobs/jobs';
import { invoicesOfJob } from '@backsight/store/fees';
import { reopenNeeds } from '@backsight/store/jobs/markNeed';
import { endingsOfJob } from '@backsight/store/sitework/ending';
import { findVisit, type VisitRow } from '@backsight/store/schedule/visits';
import { invoiceTheFee } from '../fees/steps/carryOver.ts';
import type { Act, Work } from '../run.ts';
import { dueBefore } from './steps/askForTime.ts';
import { placeVisit } from '../schedule/steps/placeVisit.ts';
import type { Start } from '../schedule/steps/reserveStart.ts';
import { askAgain } from './steps/changeFee.ts';
import { earlierLine, feeOf, replaceLines } from './steps/feeLines.ts';
import { demandFor, jobContext, noteJob } from './steps/loadJob.ts';
import { tellOfMove } from './steps/tellOfMove.ts';

/** `feeAgain`: the fee is due for the new visit besides what was charged for the one that ended early. */
export type AgainInput = { id: string; version: number; start: Start; feeAgain: boolean; publicUrl: string };
export type Again = { id: string; version: number; visitId: string; startsAt: string; totalCents: number; warnings: Warning[] };

export const bookAgain: Act<AgainInput, Again> = { operation: 'jobs.book-again', run: again };

const ASKED_AGAIN = ['access', 'utilities', 'tenant_notice', 'closed_house'] as const;
/** Open when the visit ended, and laid aside then. */
const LAID_ASIDE = ['signature', 'client_address', 'results'] as const;

/** What hangs on the visit is wanted again, and so is the fee where it is due before: each before the new start. */
async function askAnew(work: Work, { id, terms }: Job, startsAt: Date): Promise<void> {
  await reopenNeeds(work.tx, id, ASKED_AGAIN, work.now);
  await reopenNeeds(work.tx, id, LAID_ASIDE, work.now, ['not_needed']);
  const owed = (await invoicesOfJob(work.tx, id)).some(({ state, balanceCents }) => state !== 'withdrawn' && balanceCents > 0);
  if (owed && terms === 'due_at_booking') await askAgain(work, { id, state: 'booked' }, 'payment', 'The fee is due for the new visit.');
  await dueBefore(work, id, startsAt);
}

/** The visit as the client knew it: what ended early was shortened to the time that it took. */
const asBooked = (was: VisitRow, startsAt: Date, endsAt: Date): VisitRow => ({
  ...was,
  endsAt: new Date(was.startsAt.getTime() + endsAt.getTime() - startsAt.getTime()),
});

async function again(work: Work, input: AgainInput): Promise<Outcome<Again>> {
  const context = await jobContext(work.tx, input.id, work.now);
  if (!context.ok) return context;
  const { job: seen, catalog } = context.value;
  const demand = demandFor(context.value, seen.kind, new Date(input.start.startsAt));
  if (!demand.ok) return demand;
  const placed = await placeVisit(work, {
    jobId: seen.id,
    office: catalog.office,
    demand: demand.value,
    start: input.start,
    holdEndsAt: null,
  });
  if (!placed.ok) return placed;
  const job = (await lockJob(work.tx, seen.id))!;
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayBookAgain(job.state);
  if (!allowed.ok) return allowed;
  const [ended] = await endingsOfJob(work.tx, job.id);
  const open = await findOpenNeeds(work.tx, job.id);
  if (!ended || open.includes('ending_fee')) return refuse('ending-fee-open');
  const before = await findFeeLines(work.tx, job.id);
  const chargedCents = feeOf(before);
  const lines = feeAfterRebooking(before, earlierLine(ended), chargedCents, input.feeAgain);
  await replaceLines(work, job.id, lines);
  const startsAt = new Date(placed.value.startsAt);
  const { visitId, first, second } = placed.value;
  const version = await noteJob(work, job.id, 'booked', {
    kind: 'visit_added',
    details: { visitId, startsAt: placed.value.startsAt, first, second },
  });
  const invoiced = await invoiceTheFee(work, job.id);
  if (!invoiced.ok) return invoiced;
  await askAnew(work, job, startsAt);
  const was = (await findVisit(work.tx, ended.visitId))!;
  const endsAt = new Date(placed.value.endsAt);
  const words = rebookedWords(chargedCents, feeOf(lines), input.feeAgain);
  const warnings = await tellOfMove(work, asBooked(was, startsAt, endsAt), { startsAt, endsAt, first, second, visitId }, input.publicUrl, {
    fee: words,
  });
  await work.did('job', job.id, {
    bookedAgain: visitId,
    startsAt: placed.value.startsAt,
    feeAgain: input.feeAgain,
    totalCents: feeOf(lines),
  });
  return accept({ id: job.id, version, visitId, startsAt: placed.value.startsAt, totalCents: feeOf(lines), warnings }, warnings);
}
