// Books the visit that a remedy brings: a job of its own for the same property and people, free of charge, booked at once.
import { comesWords } from '@backsight/domain/agreements/notices';
import { mayBookVisit, mayGo } from '@backsight/domain/callbacks/visit';
import { needsOf } from '@backsight/domain/jobs/needs';
import { accept, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { CallbackRow, RemedyRow } from '@backsight/store/callbacks';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleNames } from '@backsight/store/agreements/names';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { saveRemedyVisit, visitsOfRemedies } from '@backsight/store/callbacks/visits';
import { addJobEvent, insertJob, saveNeeds, saveServices, type Job } from '@backsight/store/jobs/jobs';
import { findJobParties, saveJobParties } from '@backsight/store/jobs/parties';
import { nextNumber } from '@backsight/store/numbers';
import type { JobContext } from '../jobs/steps/loadJob.ts';
import { tellBooked } from '../jobs/steps/tellClients.ts';
import { tellPair } from '../jobs/steps/tellPair.ts';
import type { Act, Work } from '../run.ts';
import { writeVisit, type PlacedVisit } from '../schedule/steps/placeVisit.ts';
import { reserveStart, type Reserved, type Start } from '../schedule/steps/reserveStart.ts';
import { actorId, record } from './steps/callback.ts';
import { withRemedy } from './steps/remedy.ts';
import { originalPair, visitDemand, VISIT_KIND } from './steps/visitDemand.ts';

export type BookVisitInput = { remedyId: string; jobId: string; start: Start };
export type BookedVisit = { id: string; jobId: string; number: number; startsAt: string; warnings: Warning[] };

export const bookVisit: Act<BookVisitInput, BookedVisit> = {
  operation: 'callbacks.book-visit',
  run: (work, input) => withRemedy(work, input.remedyId, (remedy, callback) => book(work, remedy, callback, input)),
};

async function book(work: Work, remedy: RemedyRow, callback: CallbackRow, { jobId, start }: BookVisitInput): Promise<Outcome<BookedVisit>> {
  const standing = (await visitsOfRemedies(work.tx, callback.id)).find(({ remedyId }) => remedyId === remedy.id);
  const may = mayBookVisit({ ...remedy, booked: standing?.number ?? null });
  if (!may.ok) return may;
  const parent = (await findJobForCallback(work.tx, callback.jobId))!;
  const pair = mayGo(
    [start.first, start.second].filter((id) => id !== null),
    originalPair(parent),
  );
  if (!pair.ok) return pair;
  const asked = await visitDemand(work.tx, parent, { now: work.now, startsAt: new Date(start.startsAt) });
  if (!asked.ok) return asked;
  const { context, demand } = asked.value;
  const reserved = await reserveStart(work, { office: context.catalog.office, demand, start });
  if (!reserved.ok) return reserved;
  const job = await fileJob(work, jobId, context, reserved.value.startsAt);
  const visit = await writeVisit(work, { jobId, demand, reserved: reserved.value, holdEndsAt: null });
  await noteBoth(work, context, job, visit);
  await saveRemedyVisit(work.tx, remedy.id, jobId);
  await tellOfBooking(work, jobId, visit.visitId, reserved.value);
  const noted = await record(
    work,
    callback,
    { kind: 'visit_booked', state: callback.state, details: { remedyId: remedy.id, jobId, jobNumber: job.number, visitId: visit.visitId } },
    pair.warnings,
  );
  return noted.ok
    ? accept({ id: callback.id, jobId, number: job.number, startsAt: visit.startsAt, warnings: pair.warnings }, pair.warnings)
    : noted;
}

/** The clients and the pair hear of the visit at once. */
async function tellOfBooking(work: Work, jobId: string, visitId: string, to: Reserved): Promise<void> {
  const job = (await findJobForAgreement(work.tx, jobId))!;
  const told = { visitId, version: 1, what: 'callback visit' };
  await tellPair(work, job, { ...told, now: to });
  const ids = [to.first, to.second].filter((id) => id !== null);
  const names = await findPeopleNames(work.tx, ids);
  await tellBooked(work, job, {
    ...told,
    key: `booked:${visitId}`,
    at: to,
    coming: comesWords(ids.map((id) => names.get(id)!)),
    charge: 'Nothing is charged for this visit.',
  });
}

const ASKED_AGAIN = ['access', 'utilities', 'client_address', 'tenant_notice'];

/** The job with the people and the services of the first one; nothing is charged, signed or invoiced. */
async function fileJob(work: Work, id: string, { job: parent, services }: JobContext, startsAt: Date): Promise<Job> {
  const { tx, now } = work;
  const { officeId, propertyId, facts, scheduleId, rulesId, terms, clientAttends } = parent;
  const number = await nextNumber(tx, 'job');
  const job: Job = {
    id,
    number,
    officeId,
    propertyId,
    kind: VISIT_KIND,
    state: 'booked',
    facts,
    scheduleId,
    rulesId,
    parentId: parent.id,
    terms,
    objectionOn: null,
    source: '',
    clientAttends,
    version: 1,
  };
  await insertJob(tx, { ...job, recordedAt: now });
  await saveServices(
    tx,
    id,
    services.map((serviceKey) => ({ serviceKey, providerId: null })),
  );
  const people = await findJobParties(tx, parent.id);
  await saveJobParties(
    tx,
    id,
    people.map(({ partyId, role, mayReceiveReport, consentAt }) => ({ id: work.newId(), partyId, role, mayReceiveReport, consentAt })),
  );
  const needs = needsOf({ facts, services, terms, tenant: people.some(({ role }) => role === 'occupant'), parties: people }, startsAt, now);
  await saveNeeds(
    tx,
    id,
    needs.filter(({ kind }) => ASKED_AGAIN.includes(kind)),
    { newId: work.newId, at: now },
  );
  return job;
}

async function noteBoth(
  work: Work,
  { services }: JobContext,
  { id, state, version: _, ...row }: Job,
  { visitId, startsAt, first, second }: PlacedVisit,
): Promise<void> {
  await addJobEvent(work.tx, {
    id: work.newId(),
    jobId: id,
    at: work.now,
    actorId: actorId(work.actor),
    kind: 'placed',
    state,
    details: { ...row, services, totalCents: 0, visitId, startsAt, first, second },
  });
  await work.did('job', id, { number: row.number, kind: row.kind, parentId: row.parentId, visitId, startsAt, first, second });
}
