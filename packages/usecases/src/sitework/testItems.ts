// Places devices, draws samples, and follows each until its result has been told to the client.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { collectFrom, mayStep, nextSteps, testFrom, type TestKind, type TestStep } from '@backsight/domain/sitework/testItems';
import type { Reader } from '@backsight/store/database';
import { findJob, lockJob, updateNeed, type Job } from '@backsight/store/jobs/jobs';
import { settleNeed } from '@backsight/store/jobs/markNeed';
import {
  addTestItem,
  addTestStep,
  awaitedOfJob,
  lockTestItem,
  pickupToday,
  testItemsOfJob,
  type TestItemRow,
} from '@backsight/store/sitework/testItems';
import { reportsOfJob } from '@backsight/store/sitework/report';
import { setVisitState, visitsOfJob } from '@backsight/store/sitework/visit';
import { keepText } from '@backsight/store/text';
import { deskRulesOf } from '../jobs/steps/deskRules.ts';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Actor, Work } from '../run.ts';
import { deviceTime } from './steps/deviceTime.ts';
import { isMember } from './steps/loadRecord.ts';
import { mayDecide } from './steps/mayDecide.ts';
import { moveJob } from './steps/moveJob.ts';

export type PlaceInput = {
  id: string;
  jobId: string;
  kind: TestKind;
  serial: string;
  what: string;
  happenedAt: string;
  closedSince: string | null;
  occupantTold: boolean;
};
export type Placed = { id: string; collectFrom: string | null };

/** Leaves a device at the house, or notes a sample as drawn. Refusals: job-is, test-step-ahead, device-out-elsewhere. */
export const placeTestItem: Act<PlaceInput, Placed> = { operation: 'sitework.place-test', run: place };

async function place(work: Work, input: PlaceInput): Promise<Outcome<Placed>> {
  const job = await lockJob(work.tx, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (work.actor.kind !== 'person' || !(await mayTouch(work.tx, job.id, work.actor))) return refuse('not-on-this-visit');
  if (!['booked', 'on_site', 'visited'].includes(job.state)) return refuse('job-is', { state: job.state.replaceAll('_', ' ') });
  const happenedAt = deviceTime(input.happenedAt, work.now);
  if (happenedAt > work.now) return refuse('test-step-ahead', {}, 'happenedAt');
  const { radon, holdingHours } = await deskRulesOf(work.tx, job);
  const device = input.kind === 'device';
  const item = {
    id: input.id,
    jobId: job.id,
    kind: input.kind,
    serial: input.serial,
    what: input.what,
    testFrom: device ? testFrom(happenedAt, input.closedSince === null ? null : new Date(input.closedSince), radon.closedHouseHours) : null,
    shortestHours: device ? radon.shortestHours : 0,
    holdingHours: device ? null : holdingHours,
  };
  await addTestItem(work.tx, { ...item, recordedAt: work.now });
  const step: TestStep = device ? 'placed' : 'collected';
  const details: StepDetails = device ? { closedSince: input.closedSince, occupantTold: input.occupantTold } : {};
  await addTestStep(work.tx, { itemId: item.id, step, details, textId: null, happenedAt, recordedAt: work.now, recordedBy: work.actor.id });
  await updateNeed(work.tx, job.id, 'results', { state: 'asked', details: {}, at: work.now, by: null });
  if (device && input.closedSince !== null) await settleNeed(work.tx, job.id, 'closed_house', work.now, work.actor.id);
  await work.did('test-item', item.id, { jobId: job.id, kind: input.kind, step, happenedAt: input.happenedAt });
  return accept({ id: item.id, collectFrom: collectFrom(item)?.toISOString() ?? null });
}

type StepDetails = Record<string, string | boolean | null>;

const mayTouch = async (reader: Reader, jobId: string, actor: Actor): Promise<boolean> =>
  mayDecide(actor) || (await visitsOfJob(reader, jobId)).some((visit) => isMember(visit, actor));

export type StepInput = { itemId: string; step: TestStep; happenedAt: string; moved: boolean | null; words: string };
export type Stepped = { id: string; awaited: number; warnings: Warning[] };

/** Refusals: test-step-order, test-step-ahead, collected-too-early, test-words-missing, test-too-short. */
export const stepTestItem: Act<StepInput, Stepped> = { operation: 'sitework.step-test', run: step };

async function step(work: Work, input: StepInput): Promise<Outcome<Stepped>> {
  const item = await lockTestItem(work.tx, input.itemId);
  if (!item) return refuse('not-found', { thing: 'device or sample' });
  const { actor } = work;
  if (actor.kind !== 'person' || !(await mayTouch(work.tx, item.jobId, actor))) return refuse('not-on-this-visit');
  const happenedAt = deviceTime(input.happenedAt, work.now);
  const { zone } = await localDay(work.tx, work.now);
  const say = (at: Date) => DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('cccc, LLLL d, h:mm a');
  const allowed = mayStep(item, { ...input, happenedAt }, work.now, say);
  if (!allowed.ok) return allowed;
  const textId = input.words.trim() === '' ? null : await keepText(work.tx, work.newId(), input.words.trim(), work.now);
  const details: StepDetails = input.step === 'collected' && item.kind === 'device' ? { moved: input.moved } : {};
  await addTestStep(work.tx, {
    itemId: item.id,
    step: input.step,
    details,
    textId,
    happenedAt,
    recordedAt: work.now,
    recordedBy: actor.id,
  });
  if (input.step === 'collected') await endPickup(work, item, actor.id, happenedAt);
  await work.did('test-item', item.id, { jobId: item.jobId, step: input.step, happenedAt: input.happenedAt, ...details });
  const awaited = (await awaitedOfJob(work.tx, item.jobId)).length;
  if (awaited === 0) await complete(work, item.jobId, actor.id);
  return accept({ id: item.id, awaited, warnings: allowed.warnings }, allowed.warnings);
}

/** Whoever collects the device on the pick-up has done that visit. */
async function endPickup(work: Work, item: TestItemRow, personId: string, at: Date): Promise<void> {
  const visitId = item.kind === 'device' ? await pickupToday(work.tx, item.jobId, personId, at) : null;
  if (visitId === null) return;
  await setVisitState(work.tx, visitId, 'done');
  await work.did('visit', visitId, { done: true, collected: item.id });
}

/** The last result was told: the need is settled, and a job whose report the client has is complete. */
async function complete(work: Work, jobId: string, by: string): Promise<void> {
  await updateNeed(work.tx, jobId, 'results', { state: 'settled', details: {}, at: work.now, by });
  const handedOver = (await reportsOfJob(work.tx, jobId)).find(({ deliveries }) => deliveries.length > 0);
  if (handedOver)
    await moveJob(work, jobId, 'reported', (state) => (state === 'visited' ? 'reported' : state), { reportId: handedOver.id });
}

/** Devices and samples of a job with what happened and what may come next. */
export async function readTestItems(reader: Reader, input: { jobId: string; actor: Actor; now: Date }) {
  const job = await findJob(reader, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const { radon, holdingHours } = await deskRulesOf(reader, job);
  const items = await testItemsOfJob(reader, job.id);
  return accept({
    jobId: job.id,
    jobNumber: job.number,
    mayChange: await mayTouch(reader, job.id, input.actor),
    open: mayStillPlace(job),
    limits: { shortestHours: radon.shortestHours, closedHouseHours: radon.closedHouseHours, holdingHours },
    items: items.map((item) => itemJson(item)),
  });
}

const mayStillPlace = ({ state }: Job): boolean => ['booked', 'on_site', 'visited'].includes(state);

const itemJson = (item: TestItemRow) => {
  const { id, kind, serial, what, awaited, shortestHours, holdingHours } = item;
  const drawn = item.steps.find(({ step: one }) => one === 'collected');
  return {
    id,
    kind,
    serial,
    what,
    awaited,
    shortestHours,
    holdingHours,
    testFrom: item.testFrom?.toISOString() ?? null,
    collectFrom: collectFrom(item)?.toISOString() ?? null,
    laboratoryBy: drawn && holdingHours !== null ? new Date(drawn.happenedAt.getTime() + holdingHours * 3_600_000).toISOString() : null,
    next: [...nextSteps(item)],
    steps: item.steps.map((s) => ({
      step: s.step,
      happenedAt: s.happenedAt.toISOString(),
      by: s.by,
      words: s.words,
      closedSince: (s.details.closedSince as string | null | undefined) ?? null,
      occupantTold: s.details.occupantTold === true,
      moved: s.details.moved === true,
    })),
  };
};
