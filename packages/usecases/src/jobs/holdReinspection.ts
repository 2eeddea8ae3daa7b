// Holds a time for a re-inspection: a job of its own at the same house for the same people, limited to a list of items.
import { needsOf } from '@backsight/domain/jobs/needs';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { addJobEvent, insertJob, saveFeeLines, saveNeeds, saveServices, type Job } from '@backsight/store/jobs/jobs';
import { findJobParties, saveJobParties } from '@backsight/store/jobs/parties';
import { nextNumber } from '@backsight/store/numbers';
import { saveReinspectionItems } from '@backsight/store/schedule/crew';
import type { Act, Work } from '../run.ts';
import { writeVisit, type PlacedVisit } from '../schedule/steps/placeVisit.ts';
import { reserveStart, type Start } from '../schedule/steps/reserveStart.ts';
import { demandFor, jobContext, type JobContext } from './steps/loadJob.ts';

const KIND = 'reinspection';

/** `parentId` is the inspection; `cents` the fee agreed for looking at the items again. */
export type ReinspectionInput = { id: string; parentId: string; items: string[]; cents: number; start: Start };
export type HeldReinspection = PlacedVisit & { id: string; number: number; version: number; holdEndsAt: string; warnings: Warning[] };

export const holdReinspection: Act<ReinspectionInput, HeldReinspection> = { operation: 'jobs.hold-reinspection', run: hold };

async function hold(work: Work, input: ReinspectionInput): Promise<Outcome<HeldReinspection>> {
  const context = await jobContext(work.tx, input.parentId, work.now);
  if (!context.ok) return context;
  const { job: parent, catalog } = context.value;
  if (parent.kind !== 'inspection' || (parent.state !== 'visited' && parent.state !== 'reported')) return refuse('reinspection-of');
  const demand = demandFor({ ...context.value, job: { ...parent, objectionOn: null } }, KIND, new Date(input.start.startsAt));
  if (!demand.ok) return demand;
  const reserved = await reserveStart(work, { office: catalog.office, demand: demand.value, start: input.start });
  if (!reserved.ok) return reserved;
  const holdEndsAt = new Date(work.now.getTime() + catalog.firm.holdMinutes * 60_000);
  const job = await fileJob(work, input, context.value, reserved.value.startsAt);
  const visit = await writeVisit(work, { jobId: job.id, demand: demand.value, reserved: reserved.value, holdEndsAt });
  const version = await note(work, job, visit, { services: job.services, totalCents: input.cents, items: input.items.length });
  const warnings = oneItem(input.items);
  return accept({ ...visit, id: job.id, number: job.number, version, holdEndsAt: holdEndsAt.toISOString(), warnings }, warnings);
}

/** Wisconsin's act is about inspections of a whole house; one component alone may lie outside it (read in a secondary copy). */
const oneItem = (items: readonly string[]): Warning[] =>
  items.length > 1
    ? []
    : [
        {
          code: 'one-component',
          text: 'A look at one component alone may fall outside the license act. Ask the attorney which agreement fits.',
        },
      ];

async function fileJob(work: Work, input: ReinspectionInput, context: JobContext, startsAt: Date): Promise<Job & { services: string[] }> {
  const { tx, now } = work;
  const stamp = { newId: work.newId, at: now };
  const { officeId, propertyId, facts, scheduleId, rulesId, terms, clientAttends, id: parentId } = context.job;
  const services = context.catalog.services.filter(({ base }) => base).map(({ key }) => key);
  const number = await nextNumber(tx, 'job');
  const own = { id: input.id, number, kind: KIND, state: 'held', parentId, objectionOn: null, source: '', version: 1 } as const;
  const job: Job = { ...own, officeId, propertyId, facts, scheduleId, rulesId, terms, clientAttends };
  await insertJob(tx, { ...job, recordedAt: now });
  await saveServices(
    tx,
    job.id,
    services.map((serviceKey) => ({ serviceKey, providerId: null })),
  );
  const line = { rule: 'reinspection', label: 'Re-inspection', reason: `agreed for: ${input.items.join('; ')}`, cents: input.cents };
  await saveFeeLines(tx, job.id, [line], stamp);
  await saveReinspectionItems(tx, job.id, input.items);
  const people = await findJobParties(tx, parentId);
  await saveJobParties(
    tx,
    job.id,
    people.map(({ partyId, role, mayReceiveReport, consentAt }) => ({ id: work.newId(), partyId, role, mayReceiveReport, consentAt })),
  );
  const tenant = people.some(({ role }) => role === 'occupant');
  await saveNeeds(tx, job.id, needsOf({ facts, services, terms, tenant, parties: people }, startsAt, now), stamp);
  return { ...job, services };
}

type Noted = { services: string[]; totalCents: number; items: number };

async function note(work: Work, job: Job & { services: string[] }, visit: PlacedVisit, more: Noted): Promise<number> {
  const { id, state, version: _, services, ...row } = job;
  const { visitId, startsAt, first, second } = visit;
  const version = await addJobEvent(work.tx, {
    id: work.newId(),
    jobId: id,
    at: work.now,
    actorId: work.actor.kind === 'person' ? work.actor.id : null,
    kind: 'held',
    state,
    details: { ...row, services, totalCents: more.totalCents, visitId, startsAt, first, second },
  });
  await work.did('job', id, {
    number: row.number,
    kind: row.kind,
    parentId: row.parentId,
    visitId,
    startsAt,
    totalCents: more.totalCents,
    items: more.items,
  });
  return version;
}
