// A later look that was offered with a job: booked in one act with its price, or declined.
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findFeeLines, lockJob, saveFeeLines } from '@backsight/store/jobs/jobs';
import { lockLook, setLook } from '@backsight/store/jobs/laterLooks';
import { invoiceTheFee } from '../fees/steps/carryOver.ts';
import type { Act, Work } from '../run.ts';
import { placeVisit } from '../schedule/steps/placeVisit.ts';
import type { Start } from '../schedule/steps/reserveStart.ts';
import { demandFor, jobContext, noteJob } from './steps/loadJob.ts';
import { tellAdded } from './steps/tellAdded.ts';

type Booked = { id: string; visitId: string; startsAt: string; cents: number };

/** Refusals: look-is, job-is, those of a start. */
export const bookLook: Act<{ id: string; start: Start }, Booked> = { operation: 'jobs.book-later-look', run: book };

async function book(work: Work, { id, start }: { id: string; start: Start }): Promise<Outcome<Booked>> {
  const look = await lockLook(work.tx, id);
  if (!look) return refuse('not-found', { thing: 'later look' });
  if (look.state !== 'offered') return refuse('look-is', { state: look.state });
  const context = await jobContext(work.tx, look.jobId, work.now);
  if (!context.ok) return context;
  const demand = demandFor(context.value, look.visitKind, new Date(start.startsAt));
  if (!demand.ok) return demand;
  const placed = await placeVisit(work, {
    jobId: look.jobId,
    office: context.value.catalog.office,
    demand: demand.value,
    start,
    holdEndsAt: null,
  });
  if (!placed.ok) return placed;
  const job = (await lockJob(work.tx, look.jobId))!;
  if (!['booked', 'on_site', 'visited', 'reported'].includes(job.state)) return refuse('job-is', { state: job.state.replaceAll('_', ' ') });
  const { visitId, startsAt, first, second } = placed.value;
  await setLook(work.tx, id, 'booked', visitId);
  const position = 1 + Math.max(-1, ...(await findFeeLines(work.tx, job.id)).map((line) => line.position));
  const line = { rule: `later-${look.key}`, label: look.label, reason: look.reason, cents: look.cents };
  if (look.cents > 0) await saveFeeLines(work.tx, job.id, [line], { newId: work.newId, at: work.now }, position);
  await noteJob(work, job.id, job.state, { kind: 'visit_added', details: { visitId, startsAt, first, second } });
  const invoiced = await invoiceTheFee(work, job.id);
  if (!invoiced.ok) return invoiced;
  const charge = `The price is ${formatUsd(look.cents)}.`;
  const what = look.label.toLowerCase();
  await tellAdded(work, job.id, { key: `later:${look.id}`, kind: look.visitKind, what, visit: placed.value, charge });
  await work.did('later-look', id, { jobId: job.id, visitId, startsAt, cents: look.cents });
  return accept({ id, visitId, startsAt, cents: look.cents });
}

export const declineLook: Act<{ id: string }, { id: string }> = {
  operation: 'jobs.decline-later-look',
  run: async (work, { id }) => {
    const look = await lockLook(work.tx, id);
    if (!look) return refuse('not-found', { thing: 'later look' });
    if (look.state !== 'offered') return refuse('look-is', { state: look.state });
    await setLook(work.tx, id, 'declined', null);
    await work.did('later-look', id, { jobId: look.jobId, declined: true });
    return accept({ id });
  },
};
