// What follows a callback over HTTP: the assessment, closing and the check after it, the appeal, the client's answer, and the public page.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { eventsOf, findCallback } from '@backsight/store/callbacks';
import { readingGrade } from '@backsight/domain/shared/readingGrade';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
const DAY = 86_400_000;
beforeAll(async () => {
  job = await visited(api);
});

/** Equal instants would follow each other by chance. */
const tick = () => void (api.clock.now = new Date(api.clock.now.getTime() + 60_000));
const after = async (who: CastName, id: string) => (await api.send(who, 'GET', `/api/callbacks/${id}/after`)).body;
const homeOf = async (who: CastName, list: string) => (await api.send(who, 'GET', `/api/home?list=${list}`)).body.lists[0]?.items ?? [];
const letter = async (who: CastName, id: string, name: string) => {
  const { way, subject, body } = (await api.send(who, 'GET', `/api/callbacks/${id}/letter-drafts/${name}`)).body;
  const sent = await on(api, who, id, `letters/${name}`, {
    way,
    subject,
    body: body.replace(/\[[^\]]+\]/g, 'We found nothing that the report should have said.'),
  });
  expect(sent.status, JSON.stringify(sent.body)).toBe(201);
};
const linkIn = async (id: string): Promise<string> => {
  const [mail] = await api.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND body LIKE '%/client/after/%' ORDER BY id DESC LIMIT 1`,
    [id],
  );
  return /\/client\/after\/[\w-]{43}/.exec(mail!.body)![0];
};
const form = (fields: Record<string, string>) => ({
  headers: { 'content-type': 'application/x-www-form-urlencoded' },
  payload: new URLSearchParams(fields).toString(),
});
const press = (url: string, fields: Record<string, string>) => api.app().inject({ method: 'POST', url, ...form(fields) });
const look = async (url: string) => (await api.app().inject({ method: 'GET', url })).body;
/** Concluded and closed once more. */
async function again(id: string): Promise<void> {
  tick();
  const conclusion = { conclusionId: randomUUID(), cause: 'nothing_shown', words: 'Nothing else.' };
  for (const [act, body] of [
    ['conclusion', conclusion],
    ['close', {}],
  ] as const)
    expect((await on(api, 'lead', id, act, body)).status).toBe(201);
}
async function rebuilt(id: string): Promise<void> {
  const { id: _, ...row } = (await findCallback(api.database.read, id))!;
  const told = rebuildCallback(
    (await eventsOf(api.database.read, id)).map(({ seq, kind, state, details, words }) => ({ seq, kind, state, details, words })),
  );
  expect(told).toEqual(JSON.parse(JSON.stringify(row)));
}

describe('the assessment', () => {
  it('says how grave it is, what is needed at once and who looks into it, and can be made anew', async () => {
    const id = await received(api, job);
    const of = (assigneeId: string, more = {}) => ({ severity: 'unusable', atOnce: true, assigneeId, ...more });
    expect((await on(api, 'office', id, 'look-into', of(CAST.anna.id))).body).toMatchObject({
      code: 'assignee-cannot',
      field: 'assigneeId',
    });
    expect((await on(api, 'office', id, 'look-into', { assigneeId: CAST.lead.id })).status).toBe(422);
    expect((await on(api, 'office', id, 'look-into', of(CAST.lead.id))).body.state).toBe('looking_into');
    expect((await after('office', id)).assessment).toMatchObject({
      severity: 'unusable',
      atOnce: true,
      assignee: 'Lena Lead',
      by: 'Otto Office',
    });
    tick();
    expect((await on(api, 'lead', id, 'look-into', of(CAST.lead2.id, { severity: 'loss' }))).body.state).toBe('looking_into');
    expect((await after('office', id)).assessment).toMatchObject({ severity: 'loss', assignee: 'Luis Lead' });
    await rebuilt(id);
  });
});

describe('after closing', () => {
  it('asks on the thirtieth day, on the home of whoever looked into it, whether it held; it opens again when it came back', async () => {
    const id = await concluded(api, job);
    await on(api, 'office', id, 'look-into', { severity: 'loss', atOnce: false, assigneeId: CAST.lead2.id });
    expect((await on(api, 'office', id, 'checks', { outcome: 'held' })).body.code).toBe('check-not-open');
    await on(api, 'lead', id, 'close');
    expect((await after('office', id)).checks).toMatchObject([{ dueOn: '2026-06-11', person: 'Luis Lead', outcome: null }]);
    expect(await homeOf('lead2', 'afterChecks')).toEqual([]);
    api.clock.now = new Date(api.clock.now.getTime() + 30 * DAY);
    expect(await homeOf('lead2', 'afterChecks')).toMatchObject([{ thing: { kind: 'callback', id }, day: '2026-06-11' }]);
    expect(await homeOf('lead', 'afterChecks')).toEqual([]);
    expect((await on(api, 'lead2', id, 'checks', { outcome: 'held', againOn: '2026-06-20' })).body.code).toBe('check-again-only');
    expect((await on(api, 'lead2', id, 'checks', { outcome: 'not_reached', againOn: '2026-06-01' })).body.code).toBe('due-day-past');
    tick();
    expect((await on(api, 'lead2', id, 'checks', { outcome: 'not_reached', againOn: '2026-06-15' })).status).toBe(201);
    expect((await after('office', id)).checks).toMatchObject([{ dueOn: '2026-06-15', outcome: null }, { outcome: 'not_reached' }]);
    const back = await on(api, 'lead2', id, 'checks', { outcome: 'came_back', words: 'It tripped again.' });
    expect(back.body.state).toBe('looking_into');
    await rebuilt(id);
    await again(id);
    await on(api, 'office', id, 'reopen', { words: 'She called.' });
    expect((await after('office', id)).checks[0]).toMatchObject({ outcome: 'reopened' });
    await again(id);
    const other = await received(api, job);
    const { number } = (await api.send('office', 'GET', `/api/callbacks/${other}`)).body;
    expect((await on(api, 'lead', id, 'checks', { outcome: 'came_back', repeatNumber: 999_999 })).status).toBe(404);
    expect((await on(api, 'lead', id, 'checks', { outcome: 'came_back', repeatNumber: number })).body.state).toBe('closed');
    expect((await after('office', id)).checks[0]).toMatchObject({ outcome: 'came_back', repeatNumber: number });
    const question = await received(api, job, { kind: 'question' });
    await on(api, 'office', question, 'close');
    expect((await after('office', question)).checks).toEqual([]);
  });
  it('lets the client answer with one press, change it for 30 days, and shows it to owners only, counted by month', async () => {
    const id = await concluded(api, job);
    await on(api, 'lead', id, 'close');
    await letter('office', id, 'closing');
    const link = await linkIn(id);
    expect(await look(link)).toContain('How well did we handle it?');
    expect(await look(link)).not.toMatch(/Lena|Anna|freezer|ground-fault/);
    expect((await press(link, { act: 'answer', answer: 'splendid' })).statusCode).toBe(400);
    expect((await press(link, { act: 'answer', answer: 'badly', words: 'Too slow.' })).statusCode).toBe(303);
    tick();
    expect((await press(link, { act: 'answer', answer: 'well', words: '' })).statusCode).toBe(303);
    expect(await look(link)).toContain('You answered: Well.');
    expect((await after('owner', id)).answer).toMatchObject({ answer: 'well', words: null });
    for (const who of ['lead', 'office'] as const) expect(await after(who, id)).not.toHaveProperty('answer');
    const counts = (await api.send('owner', 'GET', '/api/callback-answers')).body;
    expect(counts).toContainEqual({ month: '2026-06', answer: 'well', count: 1 });
    expect(JSON.stringify(counts)).not.toMatch(/Lead|Inspector/);
    for (const who of ['lead', 'office', 'anna'] as const) expect((await api.send(who, 'GET', '/api/callback-answers')).status).toBe(403);
    api.clock.now = new Date(api.clock.now.getTime() + 31 * DAY);
    const late = await press(link, { act: 'answer', answer: 'very_badly', words: '' });
    expect([late.statusCode, late.body.includes('The time to answer ended')]).toEqual([422, true]);
    expect(await look('/client/after/aaaa')).toMatch(/opens nothing.*<a href="tel:920-555/s);
    api.clock.now = new Date(api.clock.now.getTime() + 400 * DAY);
    expect(await look(link)).toMatch(/This link has ended.*<a href="tel:920-555/s);
    await rebuilt(id);
  });
});

describe('an appeal', () => {
  it('comes in by the link within its time, once for each decision, and is decided by an owner who had nothing to do with it', async () => {
    const id = await concluded(api, job);
    expect((await on(api, 'office', id, 'appeals', { words: 'Please look again.' })).body.code).toBe('nothing-to-appeal');
    await letter('office', id, 'decision');
    const link = await linkIn(id);
    const none = await press(link, { act: 'appeal', words: ' ' });
    expect([none.statusCode, none.body.includes('Please say what we should look at again.')]).toEqual([422, true]);
    expect((await press(link, { act: 'appeal', words: 'The outlet was dead on the day.' })).statusCode).toBe(303);
    expect((await press(link, { act: 'appeal', words: 'Again.' })).statusCode).toBe(422);
    expect(await look(link)).toContain('An owner of our firm looks at it again.');
    const { appeals } = await after('office', id);
    expect(appeals).toMatchObject([{ way: 'link', words: 'The outlet was dead on the day.', result: null, decidedBy: null }]);
    expect(await homeOf('owner', 'appealsToDecide')).toMatchObject([{ thing: { id }, day: appeals[0].dueOn }]);
    expect(
      await api.database.read.rows(`SELECT FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE 'Appeal%'`, [id]),
    ).toHaveLength(2);
    const decide = (who: CastName, more = {}) =>
      on(api, who, id, 'appeals/decision', { result: 'changed', words: 'We pay the food.', ...more });
    expect((await decide('lead')).status).toBe(403);
    await on(api, 'lead', id, 'close');
    expect((await decide('owner')).body.state).toBe('looking_into');
    expect((await decide('second')).body.code).toBe('appeal-not-open');
    expect((await on(api, 'office', id, 'appeals', { words: 'Once more.' })).body.code).toBe('appealed-already');
    tick();
    await letter('office', id, 'appeal');
    const [told] = (await api.send('office', 'GET', `/api/callbacks/${id}/letters`)).body;
    for (const part of ['the decision was changed', 'We pay the food.', 'Olive Owner decided this']) expect(told.body).toContain(part);
    await rebuilt(id);
  });
  it('goes to another owner where the first one concluded; where none is left, the letter says who looked at it from outside', async () => {
    const id = await received(api, job);
    await on(api, 'owner', id, 'acknowledge');
    await on(api, 'owner', id, 'conclusion', { conclusionId: randomUUID(), cause: 'nothing_shown', words: 'Nothing was found.' });
    await letter('owner', id, 'decision');
    await on(api, 'office', id, 'appeals', { words: 'She wants it looked at again.' });
    const decide = (who: CastName, more = {}) => on(api, who, id, 'appeals/decision', { result: 'upheld', words: 'It was so.', ...more });
    expect((await decide('owner')).body).toMatchObject({ code: 'appeal-for-other-owner', about: { names: ['Sam Secondowner'] } });
    await api.database.transaction((tx) =>
      tx.db.person.update({ where: { id: CAST.second.id }, data: { endedOn: new Date('2026-05-01') } }),
    );
    expect((await decide('owner')).body).toMatchObject({ code: 'appeal-needs-reviewer', field: 'reviewer' });
    const done = await decide('owner', { reviewer: 'Rita Retired, licensed inspector' });
    expect(done.body.warnings).toMatchObject([{ code: 'appeal-decider-involved' }]);
    tick();
    await letter('owner', id, 'appeal');
    const [told] = (await api.send('office', 'GET', `/api/callbacks/${id}/letters`)).body;
    expect(told.body).toContain('Looked at from outside: Rita Retired, licensed inspector');
  });
  it('comes too late after its time, which the owner sets', async () => {
    const { version } = (await api.send('office', 'GET', '/api/after-rules')).body;
    const rules = { checkDays: 30, appealDays: 10, decideDays: 20 };
    expect((await api.send('office', 'PUT', '/api/after-rules', { version, body: rules })).status).toBe(403);
    expect((await api.send('owner', 'PUT', '/api/after-rules', { version, body: rules })).status).toBe(200);
    expect((await api.send('owner', 'PUT', '/api/after-rules', { version, body: rules })).status).toBe(412);
    const id = await concluded(api, job);
    await letter('office', id, 'decision');
    api.clock.now = new Date(api.clock.now.getTime() + 11 * DAY);
    expect((await on(api, 'office', id, 'appeals', { words: 'x' })).body.code).toBe('appeal-late');
  });
});

it('tells anybody how a complaint is handled, with the times of the firm, in plain words (ISO/IEC 17025:2017, 7.9)', async () => {
  const page = await look('/complaints');
  for (const part of [
    'Test Inspections',
    'within 1 working day',
    'within 15 working days',
    'Within 10 days',
    'ask an owner',
    'license board',
    'call 911',
  ])
    expect(page.replace(/\s+/g, ' ')).toContain(part);
  const words = page.replace(/<style[^]*?<\/style>|<[^>]+>/g, ' ').replace(/\s+/g, ' ');
  expect(readingGrade(words)).toBeLessThanOrEqual(8);
});
