// A job as its acts need it: locked, with its place and the demand of its visits.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import type { Reader } from '@backsight/store/database';
import { findCatalog, findFrozen, type Catalog } from '@backsight/store/jobs/catalog';
import { addJobEvent, findJob, type Job } from '@backsight/store/jobs/jobs';
import { findOrdered, type JobProvider, type Ordered } from '@backsight/store/jobs/ordered';
import { findProperty } from '@backsight/store/jobs/properties';
import { peopleForOtherClients } from '@backsight/store/schedule/crew';
import { firstPeopleOfJob } from '@backsight/store/schedule/visits';
import type { JobEvent } from '@backsight/domain/jobs/history';
import type { JobState } from '@backsight/domain/jobs/words';
import type { Work } from '../../run.ts';
import type { Demand } from '../../schedule/steps/demand.ts';
import { demandOf, planOf, type Place } from './plan.ts';

export type JobContext = {
  job: Job;
  catalog: Catalog;
  place: Place;
  services: string[];
  partyIds: string[];
  providers: JobProvider[];
  /** See `Demand`. */ keepAway: string[];
  /** See `Demand`. */ neverAlone: string[];
};

/** The job with the rules and the schedule under which it was priced. */
export async function jobContext(reader: Reader, jobId: string, now: Date): Promise<Outcome<JobContext>> {
  const job = await findJob(reader, jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const [current, property, frozen, ordered, neverAlone] = await Promise.all([
    findCatalog(reader, now, job.officeId),
    findProperty(reader, job.propertyId),
    findFrozen(reader, job),
    findOrdered(reader, jobId),
    job.kind === 'callback_visit' ? firstPeopleOfJob(reader, jobId) : [],
  ]);
  if (!current || !property) return refuse('not-set-up', { what: 'office' });
  const catalog = { ...current, ...frozen };
  return accept({
    job,
    catalog,
    place: property,
    services: ordered.services,
    providers: ordered.providers,
    keepAway: await keptAway(reader, job, ordered),
    partyIds: ordered.people.map(({ partyId }) => partyId),
    neverAlone,
  });
}

/** Once a lead has said that those who were at the house for another client may not go, none of them is sent. */
async function keptAway(reader: Reader, job: Job, { samePairRefused, people }: Ordered): Promise<string[]> {
  if (!samePairRefused) return [];
  const clients = people.filter(({ role }) => role === 'client').map(({ partyId }) => partyId);
  return peopleForOtherClients(reader, job.propertyId, clients);
}

/** What a visit of the job demands on the day of `startsAt`. */
export function demandFor(
  { job, catalog, place, services, providers, keepAway, partyIds, neverAlone }: JobContext,
  visitKind: string,
  startsAt: Date,
): Outcome<Demand> {
  const plan = planOf(catalog, { facts: job.facts, services, day: wallTime(startsAt, catalog.office.zone).day, place });
  if (!plan.ok) return plan;
  const demand = demandOf(catalog, plan.value, {
    visitKind,
    place,
    involves: [job.propertyId, ...partyIds],
    objectionOn: job.objectionOn,
    providers,
  });
  return demand.ok ? accept({ ...demand.value, neverAlone, keepAway }, demand.warnings) : demand;
}

/** Adds an event of a locked job and answers its new version. */
export const noteJob = (work: Work, jobId: string, state: JobState, event: JobEvent, textId?: string): Promise<number> =>
  addJobEvent(work.tx, {
    ...event,
    id: work.newId(),
    jobId,
    at: work.now,
    actorId: work.actor.kind === 'person' ? work.actor.id : null,
    state,
    ...(textId ? { textId } : {}),
  });
