// A corrective action to its end, over HTTP: planned, done, failed again, reviewed, and the same gap on other jobs.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { finishReadyActions } from '@backsight/usecases/callbacks/finishReadyActions';
import { actionsOnStep } from '@backsight/store/callbacks/change';
import { countedAround, exposedJobs, recordsOfStep } from '@backsight/store/callbacks/effect';
import type { Reader } from '@backsight/store/database';
import { closeWithSeal } from '@backsight/store/sitework';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordOf } from '../sitework/support.ts';
import { concluded, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
const STEP = 'ground-fault-trip-reset';
const jobs: Visited[] = [];
let callbackId: string;

let hours = 0;
/** Another visit, three hours later each time so that the pair is free; its device is tested by the step and the record sealed. */
async function worked(tested = true): Promise<Visited> {
  hours += 3;
  api.clock.now = new Date(new Date('2026-05-12T15:00:00Z').getTime() + hours * 3_600_000);
  const job = await visited(api);
  if (tested) {
    const { steps } = await recordOf(api, 'anna', job.recordId);
    const mine = steps.filter(({ stepKey }) => stepKey === STEP);
    expect(
      (
        await enter(
          api,
          'anna',
          job.recordId,
          mine.map((s) => answer(s, 'anna')),
        )
      ).status,
    ).toBe(201);
  }
  await api.database.transaction((tx) => closeWithSeal(tx, job.recordId, { sha256: 'a'.repeat(64), by: CAST.lead.id, at: api.clock.now }));
  return job;
}

const action = (more: object = {}) => ({
  ...{ id: randomUUID(), kind: 'training', title: 'Look behind every device', why: 'A reset that clicks proves no power downstream' },
  ...{ ownerId: CAST.anna.id, dueOn: '2026-06-30', reviewOn: null, reviewerId: null },
  ...more,
});
const post = (who: CastName, path: string, body: object) => api.send(who, 'POST', `/api/corrective-actions${path}`, { body });
/** Because of the freezer, unless other callbacks are named. */
const decide = (who: CastName, body: object) => post(who, '', { callbackIds: [callbackId], ...body });
const get = (who: CastName, path: string) => api.send(who, 'GET', `/api/corrective-actions${path}`);
const home = async (who: CastName, key: string) =>
  (await api.send(who, 'GET', '/api/home')).body.lists.find((list: { key: string }) => list.key === key);
const end = (more: object = {}) => ({
  outcome: 'done',
  what: 'Shown at the table',
  doneOn: null,
  attendees: [CAST.ben.id],
  kit: '',
  ...more,
});
const mails = (about: string) =>
  api.database.read.rows<{ to: string; subject: string; body: string; urgent: boolean }>(
    'SELECT to_address AS "to", subject, body, urgent FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY recorded_at, to_address',
    [about],
  );

beforeAll(async () => {
  for (const tested of [true, true, true, false]) jobs.push(await worked(tested));
  callbackId = await concluded(api, jobs[0]!);
});

describe('a training, from the plan to failing again', () => {
  const one = action();
  it('refuses what names the case, half a plan, a day that is over, and people who are not there', async () => {
    const refused = async (more: object) => {
      const { status, body } = await decide('lead', action(more));
      return [status, body.code ?? body.errors?.[0]?.field, body.field];
    };
    const [house] = await api.database.read.rows<{ address: string }>(
      'SELECT a.address FROM job j JOIN property a ON a.id = j.property_id WHERE j.id = $1::uuid',
      [jobs[0]!.jobId],
    );
    expect(await refused({ why: `At ${house!.address} the freezer thawed` })).toEqual([422, 'text-names-case', 'why']);
    expect(await refused({ title: 'No more losses of $386' })).toEqual([422, 'text-names-case', 'title']);
    expect(await refused({ dueOn: '2026-05-01' })).toEqual([422, 'due-day-past', 'dueOn']);
    expect(await refused({ dueOn: null })).toEqual([422, 'due-day-missing', 'dueOn']);
    expect(await refused({ reviewOn: '2026-09-01' })).toEqual([422, 'review-half-planned', 'reviewerId']);
    expect(await refused({ reviewOn: '2026-09-01', reviewerId: CAST.ben.id })).toEqual([422, 'reviewer-no-judge', 'reviewerId']);
    expect(await refused({ reviewOn: '2026-09-01', reviewerId: randomUUID() })).toEqual([404, 'not-found', 'reviewerId']);
    expect((await decide('lead', action({ callbackIds: [] }))).status).toBe(422);
    expect(await refused({ callbackIds: [await received(api, jobs[1]!)] })).toEqual([422, 'no-callback-for-action', 'callbackIds']);
  });
  it('stands on the home of whoever sees to it, who reads and ends it without the callbacks and why', async () => {
    expect((await decide('lead', one)).status).toBe(201);
    expect((await home('anna', 'myActions')).count).toBe(0);
    api.clock.now = new Date('2026-06-25T15:00:00Z');
    expect(await home('anna', 'myActions')).toMatchObject({
      count: 1,
      items: [{ thing: { kind: 'action', id: one.id }, day: '2026-06-30' }],
    });
    const mine = (await get('anna', `/${one.id}`)).body;
    expect(mine).toMatchObject({ state: 'open', events: [{ kind: 'decided' }] });
    expect(mine).not.toHaveProperty('why');
    expect(mine).not.toHaveProperty('callbacks');
    expect((await get('ben', `/${one.id}`)).status).toBe(404);
    expect((await get('anna', `/${one.id}/effect`)).status).toBe(403);
    expect(await post('anna', `/${one.id}/end`, end({ what: '' }))).toMatchObject({ status: 422, body: { code: 'action-without-what' } });
    expect(await post('anna', `/${one.id}/end`, end({ attendees: [] }))).toMatchObject({
      status: 422,
      body: { code: 'training-without-people' },
    });
    expect(await post('anna', `/${one.id}/end`, end({ doneOn: '2026-06-26' }))).toMatchObject({
      status: 422,
      body: { code: 'done-day-ahead' },
    });
    expect((await post('ben', `/${one.id}/end`, end())).status).toBe(404);
    expect(await post('lead', `/${one.id}/review`, { result: 'worked', words: 'x', nextOn: null })).toMatchObject({
      status: 409,
      body: { code: 'nothing-in-force' },
    });
  });
  it('is ended once, also when two do it at the same time', async () => {
    const both = await Promise.all([post('anna', `/${one.id}/end`, end()), post('lead', `/${one.id}/end`, end())]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    const { body } = await get('lead', `/${one.id}`);
    expect(body).toMatchObject({ state: 'done', changedAt: api.clock.now.toISOString(), callbacks: [{ id: callbackId }] });
    expect(body.events.map(({ kind }: { kind: string }) => kind)).toEqual(['decided', 'done']);
    expect(body.events[1]).toMatchObject({ words: 'Shown at the table', doneOn: '2026-06-25', attendees: [CAST.ben.name] });
    expect((await home('anna', 'myActions')).count).toBe(0);
  });
  it('opens again with the conclusion that the step failed after it, once, and its owner is told', async () => {
    hours = 24 * 50;
    const before = await concluded(api, jobs[1]!);
    expect((await get('lead', `/${one.id}`)).body.state).toBe('done');
    jobs.push(await worked());
    const after = await concluded(api, jobs[4]!);
    const { body } = await get('lead', `/${one.id}`);
    expect(body).toMatchObject({ state: 'open', reopenedAt: api.clock.now.toISOString() });
    expect(body.events.filter(({ kind }: { kind: string }) => kind === 'recurred')).toMatchObject([{ callback: { id: after } }]);
    expect(await mails(one.id)).toMatchObject([{ to: CAST.anna.email, subject: expect.stringMatching(/open again/) }]);
    expect((await mails(one.id))[0]!.body).not.toMatch(/Alder|Prior/);
    expect((await get('anna', `/${one.id}`)).body.events.at(-1)).not.toHaveProperty('callback');
    expect((await home('anna', 'myActions')).count).toBe(1);
    expect(before).not.toBe(after);
    const failures = async (reader: Reader) => (await exposedJobs(reader, STEP)).reduce((sum, job) => sum + job.failures.length, 0);
    const counted = await failures(api.database.read);
    const triedOut = api.database.transaction(async (tx) => {
      await tx.rows(`UPDATE person SET ended_on = '2026-05-01' WHERE id = $1::uuid RETURNING id`, [CAST.anna.id]);
      expect(await actionsOnStep(tx, STEP, before, api.clock.now)).toMatchObject([{ toName: CAST.lead.name, owner: CAST.anna.name }]);
      await tx.rows(
        `INSERT INTO conclusion SELECT (jsonb_populate_record(c, jsonb_build_object('id', gen_random_uuid(), 'needs_confirmation', true, 'happened_at', c.happened_at + interval '1 s'))).* FROM conclusion c WHERE callback_id = $1::uuid RETURNING id`,
        [before],
      );
      expect(await failures(tx)).toBe(counted - 1); // a conclusion that waits for confirmation is counted nowhere yet
      throw new Error('only tried out');
    });
    await expect(triedOut).rejects.toThrow('only tried out');
    await expect(
      api.database.transaction(async (tx) => {
        await tx.rows(
          `INSERT INTO corrective_action_event (id, action_id, seq, kind, details, conclusion_id, happened_at)
           SELECT gen_random_uuid(), action_id, 99, kind, details, conclusion_id, happened_at FROM corrective_action_event WHERE kind = 'recurred' RETURNING id`,
          [],
        );
      }),
    ).rejects.toThrow();
  });
  it('says nothing was changed, with the reason, and then waits for nothing', async () => {
    const none = action({
      kind: 'none',
      title: 'Nothing is changed',
      why: 'It was hidden behind finished walls.',
      dueOn: null,
      ownerId: CAST.lead.id,
    });
    expect((await decide('lead', none)).status).toBe(201);
    expect((await get('lead', `/${none.id}`)).body).toMatchObject({ kind: 'none', state: 'done' });
    expect(await finishReadyActions({ ...api, clock: () => api.clock.now })).toBe(0);
  });
});

describe('whether it helped', () => {
  const kit = action({ kind: 'kit' });
  it('is reviewed on the planned day, with the figures of then', async () => {
    api.clock.now = new Date(api.clock.now.getTime() + 3_600_000);
    expect((await decide('lead', { ...kit, ownerId: CAST.lead.id, dueOn: '2026-08-30' })).status).toBe(201);
    expect(await post('lead', `/${kit.id}/end`, end({ kit: '' }))).toMatchObject({ status: 422, body: { code: 'kit-without-which' } });
    expect((await post('lead', `/${kit.id}/end`, end({ kit: 'A tester for each pair' }))).status).toBe(201);
    const plan = { ownerId: CAST.lead.id, dueOn: '2026-08-30', reviewOn: '2026-10-01', reviewerId: CAST.owner.id };
    expect((await post('lead', `/${kit.id}/plan`, plan)).status).toBe(201);
    expect((await home('owner', 'myReviews')).count).toBe(0);
    api.clock.now = new Date('2026-10-01T15:00:00Z');
    expect(await home('owner', 'myReviews')).toMatchObject({ count: 1, items: [{ thing: { id: kit.id }, day: '2026-10-01' }] });
    const { status, body: effect } = await get('owner', `/${kit.id}/effect?days=30`);
    expect(status, JSON.stringify(effect)).toBe(200);
    expect(effect.steps[0]).toMatchObject({
      stepKey: STEP,
      before: { jobs: 5, failures: 2 },
      after: { jobs: 0, failures: 0, rate: null },
      rates: { verdict: 'too_early', comparison: null, sentence: expect.stringMatching(/Too early to tell/) },
      working: { before: { count: 4, total: 5 }, after: null, difference: null },
      shareCheck: { decision: 'cannot' },
    });
    expect((await get('owner', `/${kit.id}/effect?days=3`)).status).toBe(422);
    expect(effect.counted).toEqual({ most: 10_000, after: null, before: null });
    const review = { result: 'too_early', words: 'No job is old enough.', nextOn: '2027-04-01' };
    expect(await post('owner', `/${kit.id}/review`, { ...review, nextOn: null })).toMatchObject({
      status: 422,
      body: { code: 'review-next-day' },
    });
    expect((await post('owner', `/${kit.id}/review`, review)).status).toBe(201);
    const { body: kept } = await get('owner', `/${kit.id}`);
    expect(kept).toMatchObject({ reviewOn: '2027-04-01', reviewer: CAST.owner.name });
    expect(kept.events.at(-1)).toMatchObject({
      result: 'too_early',
      figures: { steps: [{ metBefore: { count: 4, total: 5 }, metAfter: null }] },
    });
    expect((await home('owner', 'myReviews')).count).toBe(0);
    expect((await post('owner', `/${kit.id}/review`, { result: 'did_not', words: 'It is used by nobody.', nextOn: null })).status).toBe(
      201,
    );
    expect((await get('owner', `/${kit.id}`)).body).toMatchObject({ state: 'open', reviewOn: null });
  });
});

it('counts the records nearest to a change alone, where there are more on a side than are needed', async () => {
  const opened = (await recordsOfStep(api.database.read, STEP)).map(({ openedAt }) => openedAt);
  expect(opened.length).toBeGreaterThanOrEqual(5);
  const around = await countedAround(api.database.read, opened[2]!, 1);
  expect(around).toEqual({ after: opened[0], before: opened[3] });
  const records = await recordsOfStep(api.database.read, STEP, around);
  expect(records.map(({ openedAt }) => openedAt)).toEqual(opened.slice(1, 3));
  const all = await exposedJobs(api.database.read, STEP);
  expect(await exposedJobs(api.database.read, STEP, around)).toEqual(
    all.filter(({ inspectedAt }) => inspectedAt > opened[0]! && inspectedAt < opened[3]!),
  );
  expect(await countedAround(api.database.read, opened[2]!, 1000)).toEqual({ after: null, before: null });
});

describe('the same elsewhere', () => {
  const one = action({ kind: 'none', title: 'Nothing is changed', why: 'To look elsewhere', dueOn: null });
  const look = (jobId: string, verdict: string) => ({
    jobId,
    lookId: randomUUID(),
    gap: 'not_followed',
    verdict,
    words: 'No count after the reset.',
  });
  const tell = (jobId: string, more: object = {}) => ({
    ...{ jobId, decisionId: randomUUID(), decision: 'tell', danger: false, insurerWord: 'Agreed 1 October, in the file', attorneyWord: '' },
    ...{ reason: 'Same device, same step.', words: 'Please see whether every receptacle in the garage works.', ...more },
  });
  it('lists jobs by the same step and revision with the gap of the failed entry, newest first, for owner and lead alone', async () => {
    await decide('lead', one);
    const { body } = await get('lead', `/${one.id}/elsewhere`);
    expect(body).toMatchObject({ shown: ['not_followed'], gap: 'not_followed', next: null });
    const numbers = body.jobs.map(({ jobNumber }: { jobNumber: number }) => jobNumber);
    expect(numbers).toEqual([...numbers].sort((a, b) => b - a));
    expect(body.jobs.map(({ jobId }: { jobId: string }) => jobId)).toEqual([jobs[4]!.jobId, jobs[2]!.jobId, jobs[1]!.jobId]);
    expect(body.jobs[0].places).toMatchObject([{ item: 'Upstairs bath', hasGap: true, recorded: [{ by: CAST.anna.name }] }]);
    expect((await get('lead', `/${one.id}/elsewhere?before=${numbers[0]}`)).body.jobs).toHaveLength(2);
    const bare = (await get('lead', `/${one.id}/elsewhere?gap=no_entry`)).body.jobs;
    expect(bare).toMatchObject([{ jobId: jobs[3]!.jobId, places: [{ recorded: [] }] }]);
    expect((await get('office', `/${one.id}/elsewhere`)).status).toBe(403);
  });
  it('keeps looks, and tells clients by decision of the owner alone, once', async () => {
    const [own, same, fine] = [jobs[0]!, jobs[1]!, jobs[2]!];
    expect(await post('lead', `/${one.id}/elsewhere/looks`, look(own.jobId, 'same_gap'))).toMatchObject({
      status: 422,
      body: { code: 'not-in-list-elsewhere' },
    });
    expect(await post('owner', `/${one.id}/elsewhere/decisions`, tell(same.jobId))).toMatchObject({
      status: 409,
      body: { code: 'look-first' },
    });
    expect((await post('lead', `/${one.id}/elsewhere/looks`, look(same.jobId, 'same_gap'))).status).toBe(201);
    expect((await post('lead', `/${one.id}/elsewhere/looks`, look(fine.jobId, 'fine'))).status).toBe(201);
    const refused = async (who: CastName, body: object) => (await post(who, `/${one.id}/elsewhere/decisions`, body)).body.code;
    expect(await refused('lead', tell(same.jobId))).toBe('telling-is-the-owners');
    expect(await refused('owner', tell(same.jobId, { insurerWord: '' }))).toBe('insurer-word-missing');
    expect(await refused('owner', tell(fine.jobId))).toBe('no-gap-to-tell');
    expect(await refused('owner', tell(same.jobId, { words: 'The loss there was $386, so look at yours.' }))).toBe('text-names-case');
    const told = await post('owner', `/${one.id}/elsewhere/decisions`, tell(same.jobId));
    expect(told).toMatchObject({ status: 201, body: { told: [{ way: 'mail' }] } });
    expect(await refused('owner', tell(same.jobId))).toBe('told-already');
    const [mail] = (await mails(same.jobId)).filter(({ subject }) => subject.startsWith('Something to look at'));
    expect(mail).toMatchObject({ urgent: false, body: expect.stringMatching(/without admission of responsibility/) });
  });
  it('tells a danger at once, without look or insurer', async () => {
    const danger = jobs[3]!;
    expect((await post('owner', `/${one.id}/elsewhere/decisions`, tell(danger.jobId, { danger: true, insurerWord: '' }))).status).toBe(201);
    const [mail] = (await mails(danger.jobId)).filter(({ subject }) => subject.startsWith('A possible danger'));
    expect(mail).toMatchObject({ urgent: true, body: expect.stringMatching(/call 911/) });
    const { body } = await get('owner', `/${one.id}/elsewhere?gap=no_entry`);
    expect(body.jobs).toMatchObject([{ decision: { danger: true, decision: 'tell', told: [{ way: 'mail' }] } }]);
  });
});
