// Moves a visit to another start, or adds a further one, under the same rules as the first.
import { mayAddVisit } from '@backsight/domain/jobs/decide';
import type { JobState } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { lockJob } from '@backsight/store/jobs/jobs';
import { findVisit } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { placeVisit } from '../schedule/steps/placeVisit.ts';
import type { Start } from '../schedule/steps/reserveStart.ts';
import { notTooEarly } from './steps/earliest.ts';
import { demandFor, jobContext, noteJob } from './steps/loadJob.ts';
import { costOfMove, move, type Moved, type MoveInput } from './steps/move.ts';
import { tellAdded } from './steps/tellAdded.ts';

export const moveVisit: Act<MoveInput, Moved> = { operation: 'schedule.move', run: move };

/** What a move to a start would make of the fee, and what moving so late costs besides; changes nothing. */
export async function previewMove(reader: Reader, now: Date, { id, startsAt }: { id: string; startsAt: string }) {
  const visit = await findVisit(reader, id);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const context = await jobContext(reader, visit.jobId, now);
  if (!context.ok) return context;
  const cost = await costOfMove(reader, now, { context: context.value, visit, startsAt: new Date(startsAt) });
  return cost.ok ? accept(cost.value.change) : cost;
}

export type AddVisitInput = { jobId: string; kind: string; start: Start };

export const addVisit: Act<AddVisitInput, { id: string; startsAt: string; endsAt: string }> = { operation: 'schedule.add-visit', run: add };

/** A further visit: radon pick-up, exterior re-look, a second try after nobody opened. */
async function add(work: Work, { jobId, kind, start }: AddVisitInput): Promise<Outcome<{ id: string; startsAt: string; endsAt: string }>> {
  const context = await jobContext(work.tx, jobId, work.now);
  if (!context.ok) return context;
  const early = await notTooEarly(work, { jobId, kind, startsAt: start.startsAt, zone: context.value.catalog.office.zone });
  if (!early.ok) return early;
  const demand = demandFor(context.value, kind, new Date(start.startsAt));
  if (!demand.ok) return demand;
  const placed = await placeVisit(work, { jobId, office: context.value.catalog.office, demand: demand.value, start, holdEndsAt: null });
  if (!placed.ok) return placed;
  const job = (await lockJob(work.tx, jobId))!;
  const allowed = mayAddVisit(job.state);
  if (!allowed.ok) return allowed;
  const { visitId, startsAt, endsAt, first, second } = placed.value;
  await noteJob(work, jobId, job.state satisfies JobState, { kind: 'visit_added', details: { visitId, startsAt, first, second } });
  if (job.state !== 'held') await tellAdded(work, jobId, { key: `added:${visitId}`, kind, visit: placed.value });
  await work.did('visit', visitId, { jobId, kind, startsAt, first, second });
  return accept({ id: visitId, startsAt, endsAt });
}
