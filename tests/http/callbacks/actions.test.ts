// From a conclusion to a changed procedure, and the figures before and after it.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { approveDrafts, closePeriod, openPeriods, saveDrafts, saveStepKeys, saveSteps } from '@backsight/store/procedures/save';
import { closeWithSeal } from '@backsight/store/sitework';
import { findInForce } from '@backsight/store/procedures';
import { finishReadyActions } from '@backsight/usecases/callbacks/finishReadyActions';
import { compareChange } from '@backsight/usecases/liability/steps/compare';
import { GROUND_FAULT_STEPS_REVISED } from '../../../prisma/seed/procedures/groundFaultRevision.ts';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordOf } from '../sitework/support.ts';
import { concluded, intake, on, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
const actionId = randomUUID();
let before: Visited;
let callbackId: string;
let revisionId: string;

async function draft(): Promise<string> {
  const id = randomUUID();
  const old = (await findInForce(api.database.read, api.clock.now)).find(({ procedureKey }) => procedureKey === 'electrical')!;
  const steps = [...old.steps.filter(({ key }) => key !== 'ground-fault-trip-reset'), ...GROUND_FAULT_STEPS_REVISED];
  await api.database.transaction(async (tx) => {
    await saveDrafts(tx, [
      {
        id,
        procedureId: old.procedureId,
        number: 2,
        reason: 'a freezer thawed',
        basedOnId: old.revisionId,
        authorId: CAST.lead.id,
        recordedAt: api.clock.now,
      },
    ]);
    await saveStepKeys(
      tx,
      GROUND_FAULT_STEPS_REVISED.map(({ key, derivedFrom }) => ({ key, procedureId: old.procedureId, derivedFrom: derivedFrom ?? null })),
    );
    await saveSteps(tx, [{ revisionId: id, steps }]);
  });
  return id;
}

async function inForce(id: string): Promise<void> {
  const at = api.clock.now;
  const { procedureId } = (await findInForce(api.database.read, at)).find(({ procedureKey }) => procedureKey === 'electrical')!;
  await api.database.transaction(async (tx) => {
    await approveDrafts(tx, [id], {
      approverId: CAST.owner.id,
      approvedAt: at,
      inForceFrom: at,
      acknowledgeBy: new Date(at.getTime() + 3 * 86_400_000),
    });
    await closePeriod(tx, procedureId, at);
    await openPeriods(tx, [{ id: randomUUID(), procedureId, revisionId: id, fromAt: at }]);
  });
}

const parts = () => ({ ...api, clock: () => api.clock.now });
const send = (path: string, body: object) => api.send('lead', 'POST', `/api/corrective-actions${path}`, { body });

beforeAll(async () => {
  before = await visited(api);
  callbackId = await concluded(api, before);
  const near = await received(api, before, { kind: 'near_miss', partyId: undefined, speaker: 'client' });
  await on(api, 'lead', near, 'conclusion', { conclusionId: randomUUID(), cause: 'skipped', stepKey: 'ground-fault-trip-reset' });
});

describe('a corrective action', () => {
  const action = (more: object = {}) => ({
    id: actionId,
    kind: 'revision',
    title: 'Count live receptacles before and after the trip',
    why: 'A reset that clicks proves no power downstream',
    ownerId: CAST.lead.id,
    dueOn: '2026-06-30',
    callbackIds: [callbackId],
    ...more,
  });
  it('comes from a callback with a conclusion, with somebody to see to it', async () => {
    const bare = await received(api, await visitedLater());
    expect(await send('', action({ id: randomUUID(), callbackIds: [bare] }))).toMatchObject({
      status: 422,
      body: { code: 'no-callback-for-action' },
    });
    expect(await send('', action({ id: randomUUID(), ownerId: randomUUID() }))).toMatchObject({ status: 404, body: { field: 'ownerId' } });
    expect((await send('', action())).status).toBe(201);
    expect((await api.send('office', 'POST', '/api/corrective-actions', { body: action({ id: randomUUID() }) })).status).toBe(403);
  });
  it('begins the draft of its revision in one act, linked, and knows the way back', async () => {
    const { procedureId } = (await findInForce(api.database.read, api.clock.now)).find(
      ({ procedureKey }) => procedureKey === 'electrical',
    )!;
    const begun = { revisionId: randomUUID(), procedureId, reason: 'A reset that clicks proves no power downstream' };
    expect((await api.send('office', 'POST', `/api/corrective-actions/${actionId}/draft`, { body: begun })).status).toBe(403);
    expect(await send(`/${actionId}/draft`, { ...begun, procedureId: randomUUID() })).toMatchObject({ status: 404 });
    expect(await send(`/${actionId}/draft`, { ...begun, reason: 'call 920-555-0171' })).toMatchObject({
      status: 422,
      body: { code: 'revision-looks-personal' },
    });
    expect(await send(`/${actionId}/draft`, begun)).toMatchObject({ status: 201, body: { number: 2 } });
    expect(await send(`/${actionId}/draft`, { ...begun, revisionId: randomUUID() })).toMatchObject({
      status: 409,
      body: { code: 'draft-exists' },
    });
    expect((await api.send('lead', 'GET', `/api/callbacks/${callbackId}`)).body.actions[0]).toMatchObject({
      revisionId: begun.revisionId,
      revisionState: 'draft',
    });
    expect((await api.send('lead', 'GET', `/api/corrective-actions?revision=${begun.revisionId}`)).body).toMatchObject([
      { id: actionId, callbacks: [{ id: callbackId }] },
    ]);
    expect((await api.send('lead', 'GET', `/api/corrective-actions?revision=${randomUUID()}`)).body).toEqual([]);
    expect((await api.send('lead', 'DELETE', `/api/revisions/${begun.revisionId}`, { version: 1 })).status).toBe(200);
    expect((await api.send('lead', 'GET', `/api/callbacks/${callbackId}`)).body.actions[0]).toMatchObject({
      revisionId: null,
      state: 'open',
    });
  });
  it('is done by itself when its revision is in force, not before', async () => {
    revisionId = await draft();
    expect(await send(`/${actionId}/revision`, { revisionId: randomUUID() })).toMatchObject({ status: 404 });
    expect((await send(`/${actionId}/revision`, { revisionId })).status).toBe(201);
    expect(await send(`/${actionId}/end`, { outcome: 'done', what: '', kit: '' })).toMatchObject({
      status: 409,
      body: { code: 'action-waits-for-revision' },
    });
    expect(await finishReadyActions(parts())).toBe(0);
    await inForce(revisionId);
    expect(await finishReadyActions(parts())).toBe(1);
    expect(await finishReadyActions(parts())).toBe(0);
    expect(await send(`/${actionId}/end`, { outcome: 'done' })).toMatchObject({ status: 409, body: { code: 'action-closed' } });
    expect((await api.send('lead', 'GET', '/api/corrective-actions')).body[0]).toMatchObject({
      state: 'done',
      revisionNumber: 2,
      callbacks: [{ stepKey: 'ground-fault-trip-reset' }],
    });
  });
});

it('is done in the act that approves its revision, when that is in force at once', async () => {
  const [action, revision] = [randomUUID(), randomUUID()];
  const { procedureId } = (await findInForce(api.database.read, api.clock.now)).find(({ procedureKey }) => procedureKey !== 'electrical')!;
  await send('', {
    id: action,
    kind: 'revision',
    title: 'Say it plainly',
    why: 'x',
    ownerId: CAST.lead.id,
    dueOn: '2026-06-30',
    callbackIds: [callbackId],
  });
  expect((await send(`/${action}/draft`, { revisionId: revision, procedureId, reason: 'Say it plainly' })).status).toBe(201);
  const { version, basedOnId, steps } = (await api.send('lead', 'GET', `/api/revisions/${revision}`)).body;
  const changed = steps.map(({ step }: { step: object & { why: string } }, at: number) =>
    at === 0 ? { ...step, why: `${step.why} So that nobody guesses.` } : step,
  );
  const saved = await api.send('lead', 'PUT', `/api/revisions/${revision}`, {
    version,
    body: { reason: 'Say it plainly', basedOnId, steps: changed },
  });
  expect(saved.status, JSON.stringify(saved.body)).toBe(200);
  const approved = await api.send('owner', 'POST', `/api/revisions/${revision}/approval`, {
    body: { version: version + 1, inForceFrom: null, acknowledgeBy: null, graceReason: null },
  });
  expect(approved.status, JSON.stringify(approved.body)).toBe(201);
  expect((await api.send('lead', 'GET', `/api/corrective-actions?revision=${revision}`)).body).toMatchObject([
    { id: action, state: 'done' },
  ]);
});

let visits = 0;
/** Another visit, three hours later each time, so that the pair is free. */
async function visitedLater() {
  visits += 1;
  api.clock.now = new Date(new Date('2026-05-12T15:00:00Z').getTime() + visits * 3 * 3_600_000);
  return visited(api);
}

/** The device is tested by the changed steps: four receptacles live before, so many live again after. */
async function testDevice(recordId: string, liveAgain: number): Promise<void> {
  const keys = ['live-receptacles-before', 'ground-fault-trip-reset', 'live-receptacles-after'];
  const { steps } = await recordOf(api, 'anna', recordId);
  for (const who of ['anna', 'ben'] as const) {
    const mine = steps.filter((s) => keys.includes(s.stepKey) && (who === 'anna' || s.partnerCheck));
    const said = mine.map((s) =>
      s.stepKey === 'live-receptacles-after' ? answer(s, who, { evidence: { kind: 'count', count: liveAgain } }) : answer(s, who),
    );
    if (said.length > 0) expect((await enter(api, who, recordId, said)).status).toBe(201);
  }
}

const seal = (id: string) =>
  api.database.transaction((tx) => closeWithSeal(tx, id, { sha256: 'a'.repeat(64), by: CAST.lead.id, at: api.clock.now }));
let afterId: string;

describe('figures of the step', () => {
  it('count its line of descent once per device, before and after, and say honestly that it is too early', async () => {
    const after = await visitedLater();
    afterId = after.recordId;
    await testDevice(afterId, 4);
    const { steps } = (await api.send('owner', 'GET', '/api/liability/steps')).body;
    const step = (await api.send('owner', 'GET', '/api/liability/steps/live-receptacles-after')).body;
    expect(steps[0].stepKey).toBe('ground-fault-trip-reset');
    expect(steps.map((s: { stepKey: string }) => s.stepKey)).not.toContain('live-receptacles-after');
    const [change] = step.changes;
    expect(step).toMatchObject({ failures: 1, nearMisses: 1 });
    expect(change).toMatchObject({
      revisionNumber: 2,
      before: { failures: 1 },
      after: { failures: 0 },
      comparison: { verdict: 'too_early' },
    });
    expect(change.before.times + change.after.times).toBe(step.times);
    expect([change.before.times, change.after.times]).toEqual([2, 1]);
    expect(change.comparison.sentence).toMatch(
      /^Before the change 1 failure in 2 times the step applied, after it no failure in 1\. Too early to tell/,
    );
    expect(change.evidence).toBe(null);
  });
  it('say sooner how often the evidence meets the changed step: sealed records only, a count that differs does not meet it', async () => {
    const evidence = async () => {
      return (await api.send('owner', 'GET', '/api/liability/steps/ground-fault-trip-reset')).body.changes[0].evidence;
    };
    await seal(afterId);
    expect(await evidence()).toMatchObject({ met: 1, total: 1, upper: 1 });
    const differs = await visitedLater();
    await testDevice(differs.recordId, 3);
    expect(await evidence()).toMatchObject({ met: 1, total: 1 });
    await seal(differs.recordId);
    const found = await evidence();
    // Clopper and Pearson, Biometrika 26 (1934): for 1 of 2 the limits are 1 - sqrt(0.975) and sqrt(0.975).
    expect(found).toMatchObject({
      met: 1,
      total: 2,
      lower: expect.closeTo(1 - Math.sqrt(0.975), 6),
      upper: expect.closeTo(Math.sqrt(0.975), 6),
    });
  });
  it('needs about 77 failures in all for a halving at equal exposure, two-sided 5 %, 80 % power (exact conditional test, computed)', () => {
    const early = compareChange({ failures: 4, times: 2000 }, { failures: 2, times: 2000 }, 3);
    expect(early.verdict).toBe('too_early');
    expect(Math.abs(early.neededFailures - 77)).toBeLessThanOrEqual(3);
    expect(early.yearsToGo).toBeCloseTo((early.neededFailures - 6) / 2, 6);
    expect(compareChange({ failures: 60, times: 1000 }, { failures: 20, times: 1000 }, 3).verdict).toBe('fewer');
    expect(compareChange({ failures: 20, times: 1000 }, { failures: 60, times: 1000 }, 3).verdict).toBe('more');
    expect(compareChange({ failures: 0, times: 0 }, { failures: 0, times: 0 }, 0)).toMatchObject({
      verdict: 'too_early',
      yearsToGo: null,
      p: null,
    });
  });
  it('keeps a near-miss out of the money', async () => {
    const body = intake(before, { kind: 'near_miss', partyId: undefined });
    await api.send('anna', 'POST', '/api/callbacks', { body });
    expect(await on(api, 'lead', body.id, 'reserve', { cents: 100, words: 'x' })).toMatchObject({
      status: 409,
      body: { code: 'near-miss-costs-nothing' },
    });
  });
});
