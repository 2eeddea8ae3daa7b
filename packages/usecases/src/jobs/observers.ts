// Somebody comes along on a visit who counts toward no rule: he is busy then, and the clients are told his name.
import { mayComeAlong, type ObserverReason } from '@backsight/domain/schedule/crew';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleNames } from '@backsight/store/agreements/names';
import { lockJob } from '@backsight/store/jobs/jobs';
import { deleteObservers, findObservers, insertObserver } from '@backsight/store/schedule/crew';
import { findVisit, lockDays, type VisitRow } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { observerProblem } from '../schedule/steps/observerFree.ts';
import { jobContext, noteJob } from './steps/loadJob.ts';
import { tellWhoComes } from './steps/tellClients.ts';

export type ObserverInput = { visitId: string; personId: string; reason: ObserverReason };
type Done = { id: string; version: number };

export const addObserver: Act<ObserverInput, Done> = { operation: 'schedule.add-observer', run: add };

async function add(work: Work, { visitId, personId, reason }: ObserverInput): Promise<Outcome<Done>> {
  const seen = await findVisit(work.tx, visitId);
  if (!seen) return refuse('not-found', { thing: 'visit' });
  const name = (await findPeopleNames(work.tx, [personId])).get(personId);
  if (name === undefined) return refuse('not-found', { thing: 'person' }, 'personId');
  const context = await jobContext(work.tx, seen.jobId, work.now);
  if (!context.ok) return context;
  await lockDays(work.tx, { people: [{ id: personId, day: wallTime(seen.startsAt, context.value.catalog.office.zone).day }], kit: [] });
  const job = (await lockJob(work.tx, seen.jobId))!;
  const visit = (await findVisit(work.tx, visitId))!;
  const there = (await findObservers(work.tx, visitId)).map((one) => one.personId);
  const may = mayComeAlong(visit, there, { id: personId, name });
  if (!may.ok) return may;
  const problem = await observerProblem(work, context.value, visit, personId);
  if (problem !== null) return refuse('observer-not-free', { sentences: problem }, 'personId');
  await insertObserver(work.tx, { visitId, personId, reason, startsAt: visit.startsAt, endsAt: visit.endsAt, live: true });
  const version = await noteJob(work, job.id, job.state, { kind: 'observer_added', details: { visitId, personId } });
  await work.did('visit', visitId, { jobId: job.id, observer: personId, reason });
  await tell(work, visit, job.state);
  return accept({ id: visitId, version });
}

export const removeObserver: Act<{ visitId: string; personId: string }, Done> = { operation: 'schedule.remove-observer', run: remove };

async function remove(work: Work, { visitId, personId }: { visitId: string; personId: string }): Promise<Outcome<Done>> {
  const visit = await findVisit(work.tx, visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const job = (await lockJob(work.tx, visit.jobId))!;
  if (visit.state !== 'held' && visit.state !== 'booked') return refuse('visit-is', { state: visit.state.replaceAll('_', ' ') });
  if ((await deleteObservers(work.tx, visitId, [personId])) === 0) return refuse('not-found', { thing: 'observer' });
  const version = await noteJob(work, job.id, job.state, { kind: 'observer_removed', details: { visitId, personId } });
  await work.did('visit', visitId, { jobId: job.id, observerRemoved: personId });
  await tell(work, visit, job.state);
  return accept({ id: visitId, version });
}

/** Clients of a job that is only held were never written to. */
async function tell(work: Work, visit: VisitRow, state: string): Promise<void> {
  if (state === 'held') return;
  const ids = [visit.first, visit.second].filter((id) => id !== null);
  const names = await findPeopleNames(work.tx, ids);
  const along = await findObservers(work.tx, visit.id);
  await tellWhoComes(work, (await findJobForAgreement(work.tx, visit.jobId))!, { visit, pair: ids.map((id) => names.get(id)!), along });
}
