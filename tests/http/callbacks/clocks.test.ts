// Tag: time. Clocks of callbacks over HTTP: terms with their history, pauses, danger at any hour until somebody has it, legal papers, injuries of own people.
import { randomUUID } from 'node:crypto';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { alertOnCall } from '@backsight/usecases/callbacks/alertOnCall';
import { remindOfPapers } from '@backsight/usecases/callbacks/remindOfPapers';
import { CAST, type CastName } from '../../support/cast.ts';
import { TEST_NOW } from '../../support/database.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { clockTools, duty, whileMailFails } from './clockTools.ts';
import { on, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});
beforeEach(() => at(TEST_NOW.toISOString())); // Tuesday May 12, 2026, 10:00 in Wisconsin
const { at, later, clocksOf, clockOf, home, mailsAbout, alerts, rebuilt, twoPauses } = clockTools(api);

describe('terms', () => {
  const usual = { kind: 'conduct', clock: 'decision', amount: 10, unit: 'businessDays', source: 'Our handbook, page 4' };
  const term = (more: object) => ({ body: { ...usual, id: randomUUID(), ...more } });
  it('are set by the owner with their source, count for what comes in afterwards, and keep their history', async () => {
    const before = await received(api, job, { kind: 'conduct' });
    later(60);
    for (const [more, code] of [
      [{ amount: 0 }, 'clock-amount'],
      [{ amount: -3 }, 'clock-amount'],
      [{ unit: 'days' }, 'clock-unit'],
      [{ clock: 'visit' }, 'clock-not-of-kind'],
    ] as const)
      expect(await api.send('owner', 'POST', '/api/callback-clocks', term(more))).toMatchObject({ status: 422, body: { code } });
    expect((await api.send('owner', 'POST', '/api/callback-clocks', term({ source: ' ' }))).status).toBe(422);
    expect((await api.send('office', 'POST', '/api/callback-clocks', term({}))).status).toBe(403);
    expect((await api.send('owner', 'POST', '/api/callback-clocks', term({}))).status).toBe(201);
    later(60);
    const after = await received(api, job, { kind: 'conduct' });
    expect(await clockOf(before, 'decision')).toMatchObject({ amount: 15, dueAt: '2026-06-03T22:00:00.000Z' });
    expect(await clockOf(after, 'decision')).toMatchObject({
      amount: 10,
      source: 'Our handbook, page 4',
      dueAt: '2026-05-27T22:00:00.000Z',
    });
    const all = (await api.send('office', 'GET', '/api/callback-clocks')).body;
    expect(all.find((one: { kind: string; clock: string }) => one.kind === 'conduct' && one.clock === 'decision')).toMatchObject({
      now: { amount: 10 },
      customary: { amount: 15, source: expect.stringMatching(/common practice/) },
      set: [{ amount: 10, by: 'Olive Owner', fromAt: '2026-05-12T16:00:00.000Z' }],
    });
  });
});

describe('clocks and pauses', () => {
  it('say what is met by whom and overdue by how much office time, on the page and on the homes of those who act', async () => {
    const id = await received(api, job);
    expect((await clocksOf(id, 'office')).clocks).toMatchObject([
      { clock: 'acknowledge', dueAt: '2026-05-13T22:00:00.000Z', overdueMinutes: null, leftMinutes: 960 },
      { clock: 'triage', dueAt: '2026-05-14T22:00:00.000Z' },
      { clock: 'decision', dueAt: '2026-06-03T22:00:00.000Z' },
    ]);
    expect(await home('office', 'callbacksDueToday')).not.toContain(id);
    at('2026-05-13T14:00:00Z');
    expect(await home('office', 'callbacksDueToday')).toContain(id);
    at('2026-05-14T15:30:00Z'); // two hours and a half after opening, the day after
    expect(await clockOf(id, 'acknowledge')).toMatchObject({ overdueMinutes: 150, metAt: null });
    for (const who of ['owner', 'lead', 'office'] as const) expect(await home(who, 'callbacksOverdue')).toContain(id);
    expect(await home('anna', 'callbacksOverdue')).toEqual([]);
    expect((await on(api, 'office', id, 'acknowledge')).status).toBe(201);
    expect(await clockOf(id, 'acknowledge')).toMatchObject({
      metAt: '2026-05-14T15:30:00.000Z',
      metBy: 'Otto Office',
      overdueMinutes: 150,
    });
    expect(await home('office', 'callbacksOverdue')).not.toContain(id);
    at('2026-06-04T15:00:00Z');
    await api.database.transaction((tx) =>
      tx.db.callbackClock.updateMany({ where: { callbackId: id, clock: 'triage' }, data: { metAt: api.clock.now } }),
    );
    expect(await home('lead', 'callbacksOverdue')).toContain(id); // the decision is not the office's
    expect(await home('office', 'callbacksOverdue')).not.toContain(id);
  });

  it('stand still with a reason, never twice, and go on later by the office time that passed', async () => {
    const id = await received(api, job);
    expect((await on(api, 'office', id, 'pause', { words: ' ' })).status).toBe(422);
    expect(await on(api, 'office', id, 'resume')).toMatchObject({ status: 409, body: { code: 'pause-not-open' } });
    expect((await on(api, 'anna', id, 'pause', { words: 'x' })).status).toBe(403);
    expect((await on(api, 'office', id, 'pause', { words: 'Away until Monday' })).status).toBe(201);
    expect(await on(api, 'lead', id, 'pause', { words: 'Again' })).toMatchObject({ status: 409, body: { code: 'pause-open-already' } });
    await expect(twoPauses(id)).rejects.toThrow(/pause_open_already|P2002|Unique/);
    at('2026-05-20T14:00:00Z'); // Wednesday of the week after
    expect(await clockOf(id, 'decision')).toMatchObject({ standsStill: true, leftMinutes: 420 + 15 * 540 });
    expect(await clockOf(id, 'acknowledge')).toMatchObject({ standsStill: false, overdueMinutes: 4 * 540 + 60 });
    expect(await home('office', 'waitingLong')).toContain(id);
    expect((await on(api, 'office', id, 'resume', { words: 'Back' })).status).toBe(201);
    // 7 hours of May 12, five whole days and one hour, after closing time of June 3: five days and 8 hours later.
    expect(await clockOf(id, 'decision')).toMatchObject({ dueAt: '2026-06-11T21:00:00.000Z', standsStill: false });
    expect((await clocksOf(id, 'office')).pauses).toMatchObject([
      { words: 'Away until Monday', from: 'Otto Office', until: 'Otto Office', officeMinutes: 420 + 5 * 540 + 60 },
    ]);
    expect(await home('office', 'waitingLong')).not.toContain(id);
    expect(await on(api, 'office', await received(api, job, { kind: 'question' }), 'pause', { words: 'x' })).toMatchObject({
      status: 409,
      body: { code: 'nothing-stands-still' },
    });
    await rebuilt(id);
  });
});

describe('danger', () => {
  const add = (who: CastName, body: ReturnType<typeof duty>) => api.send(who, 'POST', '/api/on-call', body);
  const danger = (who: CastName, id: string) => api.send(who, 'GET', `/api/callbacks/${id}/danger`);
  const haveIt = (who: CastName | 'nobody', id: string) => api.send(who, 'POST', `/api/callbacks/${id}/danger/answer`, { body: {} });
  const ring = () => alertOnCall({ database: api.database, runner: api.runner, clock: () => api.clock.now });

  it('alerts the owners, then the leads, while nobody is on call, and says so', async () => {
    expect((await api.send('anna', 'GET', '/api/on-call')).body).toMatchObject({
      uncovered: [{ from: '2026-05-12T15:00:00.000Z', to: '2026-05-13T15:00:00.000Z' }],
      now: [{ name: 'Olive Owner', onCall: false }, { name: 'Sam Secondowner' }, { name: 'Lena Lead' }, { name: 'Luis Lead' }],
    });
    const id = await received(api, job, { safety: true });
    for (let n = 0; n < 4; n += 1, later(15)) await ring();
    expect(await alerts(id)).toEqual(['Olive', 'Sam', 'Lena', 'Luis']);
    await on(api, 'office', id, 'acknowledge'); // whoever speaks with the caller has it
    expect((await danger('owner', id)).body.chains).toMatchObject([{ answeredBy: 'Otto Office' }]);
    later(60);
    await ring();
    expect(await alerts(id)).toHaveLength(4);
  });

  it('keeps the list: owner and office alone, sound lines only', async () => {
    expect((await add('lead', duty(CAST.anna.id))).status).toBe(403);
    expect((await add('owner', duty(CAST.anna.id, { weekdays: [] }))).body.code).toBe('on-call-no-day');
    expect((await add('owner', duty(CAST.anna.id, { untilDay: '2026-04-30' }))).body.code).toBe('days-backwards');
    expect((await add('owner', duty(randomUUID()))).status).toBe(404);
    expect((await add('owner', duty(CAST.anna.id))).status).toBe(201);
    expect((await add('office', duty(CAST.ben.id, { position: 2 }))).status).toBe(201);
    const wrong = duty(CAST.cora.id);
    await add('office', wrong);
    expect((await api.send('office', 'DELETE', `/api/on-call/${wrong.body.id}`)).status).toBe(200);
    expect((await api.send('office', 'DELETE', `/api/on-call/${wrong.body.id}`)).status).toBe(404);
    const list = (await api.send('ben', 'GET', '/api/on-call')).body;
    expect(list.duties.map(({ name }: { name: string }) => name)).toEqual(['Anna Inspector', 'Ben Inspector']);
    expect(list.uncovered).toEqual([
      { from: '2026-05-12T15:00:00.000Z', to: '2026-05-12T22:00:00.000Z' },
      { from: '2026-05-13T13:00:00.000Z', to: '2026-05-13T15:00:00.000Z' },
    ]);
  });

  it('goes from one to the next at night until somebody has it: once each, with mail and row together, whatever breaks', async () => {
    at('2026-05-13T04:00:00Z'); // 11 PM
    const id = await received(api, job, { safety: true });
    const [first] = (await mailsAbout(id)).filter(({ key }) => key.startsWith('danger:'));
    expect(first).toMatchObject({ to: 'Anna Inspector', urgent: true, body: expect.stringContaining(`http://office.test/danger/${id}`) });
    later(14);
    await ring();
    expect(await alerts(id)).toEqual(['Anna']);
    later(1);
    await whileMailFails(api, () => expect(ring()).rejects.toThrow(/power failed/));
    expect((await danger('owner', id)).body.chains[0].alerts).toHaveLength(1);
    await Promise.all([ring(), ring()]);
    expect(await alerts(id)).toEqual(['Anna', 'Ben']);
    for (let n = 0; n < 3; n += 1) {
      later(15);
      await ring();
    }
    expect(await alerts(id)).toEqual(['Anna', 'Ben', 'Olive', 'Sam', 'Anna']);
    expect((await danger('ben', id)).body).toMatchObject({
      party: { name: 'Paula Prior' },
      next: { name: 'Ben Inspector' },
      chains: [{ answeredAt: null, alerts: [{ name: 'Anna Inspector', at: '2026-05-13T04:00:00.000Z' }, {}, {}, {}, {}] }],
    });
    for (const who of ['owner', 'lead', 'office', 'anna'] as const) expect(await home(who, 'dangerUnanswered')).toEqual([id]);
    expect(await home('dan', 'dangerUnanswered')).toEqual([]);
    expect([(await haveIt('nobody', id)).status, (await haveIt('dan', id)).status, (await danger('dan', id)).status]).toEqual([
      401, 404, 404,
    ]);
    expect(await haveIt('ben', id)).toMatchObject({ status: 201, body: { answeredBy: 'Ben Inspector', mine: true } });
    later(5);
    expect(await haveIt('owner', id)).toMatchObject({ status: 201, body: { answeredBy: 'Ben Inspector', mine: false } });
    later(60);
    await ring();
    expect(await alerts(id)).toHaveLength(5);
    expect(await home('owner', 'dangerUnanswered')).toEqual([]);
    expect((await haveIt('owner', await received(api, job))).body.code).toBe('no-danger-here');
  });

  it('begins when the mark is set later, ends when it is lifted, both with a reason; of what only owners see, owners hear', async () => {
    const id = await received(api, job);
    const mark = (safety: boolean, words = 'It smells of gas now') => on(api, 'office', id, 'safety', { safety, words });
    expect((await mark(true, ' ')).status).toBe(422);
    expect((await mark(false)).body.code).toBe('safety-as-it-is');
    expect((await mark(true)).status).toBe(201);
    expect(await alerts(id)).toEqual(['Olive']); // by day nobody is on call
    expect((await mark(false, 'The gas company was there')).status).toBe(201);
    later(60);
    await ring();
    expect(await alerts(id)).toHaveLength(1);
    expect((await danger('lead', id)).body).toMatchObject({ safety: false, chains: [{ answeredAt: null, endedAt: expect.any(String) }] });
    await rebuilt(id);
    at('2026-05-14T04:00:00Z');
    const secret = await received(api, job, { safety: true, ownerOnly: true });
    later(15);
    await ring();
    expect(await alerts(secret)).toEqual(['Olive', 'Sam']);
    expect([(await haveIt('lead', secret)).status, (await haveIt('owner', secret)).status]).toEqual([404, 201]);
  });
});

describe('legal papers', () => {
  const paper = {
    ...{ kind: 'demand_or_suit', speaker: 'attorney', servedOn: '2026-05-12', serviceWay: 'by certified mail', deadlineOn: '2026-06-01' },
  };
  const remind = () => remindOfPapers({ database: api.database, runner: api.runner, clock: () => api.clock.now });
  it('has the list of the same day, ticked once each with day and words, and stops letters to the other side', async () => {
    const id = await received(api, job, { ...paper, ownerOnly: false });
    expect((await mailsAbout(id)).map(({ to }) => to)).toEqual([]);
    const letter = await on(api, 'owner', id, 'letters/acknowledgement', {
      words: 'We heard you.',
      subject: 'Your letter',
      body: 'We heard you.',
    });
    expect(letter.status).toBeGreaterThanOrEqual(400);
    expect(await home('owner', 'sameDayMissing')).toContain(id);
    const tick = (item: string, day = '2026-05-12', who: CastName = 'owner') =>
      on(api, who, id, 'same-day', { item, day, words: 'By phone' });
    expect((await tick('insurer', '2026-05-11')).body.code).toBe('before-service');
    expect((await tick('insurer', '2026-05-13')).body.code).toBe('in-the-future');
    expect((await tick('insurer', '2026-05-12', 'lead')).status).toBe(403);
    for (const item of ['insurer', 'attorney', 'hold', 'silence']) expect((await tick(item)).status).toBe(201);
    expect((await tick('hold')).body.code).toBe('ticked-already');
    expect(await clockOf(id, 'insurer')).toMatchObject({ metBy: 'Olive Owner', dueAt: '2026-05-13T22:00:00.000Z' });
    expect((await clocksOf(id)).paper.sameDay).toMatchObject([
      { item: 'insurer', done: { day: '2026-05-12', words: 'By phone' } },
      {},
      {},
      {},
    ]);
    const forLead = await clocksOf(id, 'lead');
    expect([Object.keys(forLead).includes('paper'), (await clocksOf(id, 'office')).clocks]).toEqual([false, []]);
    expect(await home('owner', 'sameDayMissing')).not.toContain(id);
  });

  it('reminds the owners alone before the deadline, puts a missed one first, and takes a new one by hand', async () => {
    const id = await received(api, job, paper);
    const set = (more: object) =>
      on(api, 'owner', id, 'paper', { ...{ servedOn: '2026-05-12', serviceWay: 'by hand' }, words: 'Extended', ...more });
    expect((await set({ deadlineOn: '2026-05-10' })).body).toMatchObject({ code: 'deadline-before-service', field: 'deadlineOn' });
    for (const day of ['2026-05-17', '2026-05-18', '2026-05-19', '2026-05-25', '2026-05-31', '2026-06-02']) {
      at(`${day}T14:00:00Z`);
      await remind();
    }
    const told = (await mailsAbout(id)).map(({ to, key }) => `${to.split(' ')[0]} ${key.split(':')[3]}`);
    expect(told.sort()).toEqual(['Olive', 'Sam'].flatMap((name) => ['-1', '1', '14', '7'].map((days) => `${name} ${days}`)));
    expect((await api.send('owner', 'GET', '/api/home')).body.lists.filter(({ count }: { count: number }) => count > 0)[0]).toMatchObject({
      key: 'legalOverdue',
      items: expect.arrayContaining([expect.objectContaining({ thing: { kind: 'callback', id } })]),
    });
    expect((await api.send('lead', 'GET', '/api/home?list=legalOverdue')).body.lists).toEqual([]);
    expect((await on(api, 'owner', id, 'paper/answer', { day: '2026-06-01', words: 'Filed' })).status).toBe(201);
    expect((await on(api, 'owner', id, 'paper/answer', { day: '2026-06-01', words: 'Filed' })).body.code).toBe('paper-answered-already');
    expect(await home('owner', 'legalOverdue')).not.toContain(id);
    expect((await set({ deadlineOn: '2026-07-01' })).status).toBe(201);
    expect(await home('owner', 'legalPapers')).toContain(id);
    await rebuilt(id);
    expect((await on(api, 'owner', await received(api, job), 'paper', { ...paper, words: 'x' })).status).toBe(422);
  });
});

describe('an injury of somebody of ours', () => {
  it('runs in real hours for the owner alone until it is reported', async () => {
    const id = await received(api, job, { kind: 'damage_or_injury', speaker: 'pair', partyId: undefined });
    at('2026-05-16T23:00:00Z'); // Saturday evening
    const injuryId = randomUUID();
    const injury = {
      ...{ injuryId, what: 'in_patient', happenedAt: '2026-05-16T20:00:00Z', outcomeAt: '2026-05-16T21:00:00Z' },
      ...{ learnedAt: '2026-05-16T22:00:00Z', words: 'Fell from a ladder.' },
    };
    expect((await on(api, 'lead', id, 'injuries', injury)).status).toBe(403);
    expect((await on(api, 'owner', id, 'injuries', { ...injury, outcomeAt: '2026-05-16T19:00:00Z' })).body).toMatchObject({
      code: 'injury-times-backwards',
      field: 'outcomeAt',
    });
    expect((await on(api, 'owner', id, 'injuries', injury)).status).toBe(201);
    expect((await clocksOf(id)).injuries).toMatchObject([{ what: 'in_patient', dueAt: '2026-05-17T22:00:00.000Z', reportedAt: null }]);
    expect((await clocksOf(id)).injurySource).toMatch(/29 CFR 1904.39, from memory/);
    expect(JSON.stringify([await clocksOf(id, 'lead'), (await api.send('lead', 'GET', `/api/callbacks/${id}`)).body])).not.toMatch(
      /work_injur|injuries|ladder/,
    );
    expect(await home('owner', 'injuriesToReport')).toEqual([id]);
    later(30);
    const report = (more: object = {}) =>
      on(api, 'owner', id, 'injuries/report', { injuryId, at: '2026-05-16T23:20:00Z', words: 'By phone', ...more });
    expect((await report({ at: '2026-05-16T21:00:00Z' })).body.code).toBe('injury-times-backwards');
    expect([(await report()).status, (await report()).body.code]).toEqual([201, 'injury-reported-already']);
    expect(await home('owner', 'injuriesToReport')).toEqual([]);
  });
});
