// Accepting a plan: all, some or none of its moves; what changed since is refused by name; each inspector hears once.
import { randomUUID } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { KeptGroup, KeptMove, Spot } from '@backsight/domain/schedule/plans';
import { endPlan, insertPlan } from '@backsight/store/schedule/plans';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);

const { anna, ben, cora, dan, lead, lead2 } = CAST;
let dayNumber = 0;
/** Every test has a day of its own. */
let day = '';
beforeEach(() => {
  day = [
    '2026-05-13',
    '2026-05-14',
    '2026-05-15',
    '2026-05-18',
    '2026-05-19',
    '2026-05-20',
    '2026-05-21',
    '2026-05-22',
    '2026-05-26',
    '2026-05-27',
    '2026-05-28',
  ][dayNumber++]!;
});

/** Central daylight time. */
const at = (hour: number, minute = 0): string => `${day}T${String(hour + 5).padStart(2, '0')}:${String(minute).padStart(2, '0')}:00.000Z`;
type Booked = { jobId: string; visitId: string; before: Spot };
const book = async (hour: number, first: { id: string }, second: { id: string }): Promise<Booked> => {
  const made = await bookedVisit(api, {
    startsAt: at(hour),
    endsAt: at(hour + 3),
    first: first.id,
    second: second.id,
    street: `${dayNumber} Mill Road ${hour}`,
  });
  return { ...made, before: { day, start: hour * 60, first: first.id, second: second.id } };
};
const spot = (hour: number, first: { id: string }, second: { id: string }): Spot => ({
  day,
  start: hour * 60,
  first: first.id,
  second: second.id,
});
const move = ({ jobId, visitId, before }: Booked, after: Spot | null): KeptMove => ({
  visitId,
  jobId,
  version: 1,
  label: 'Mill Road, Birchmere',
  before,
  after,
  sentence: 'Shorter way.',
});
const group = (n: number, ...moves: KeptMove[]): KeptGroup => ({
  key: `plan/${day}/${n}`,
  moves,
  savingMinutes: 12,
  drivingSavedMinutes: 10,
});

/** A plan that came out with these groups. */
async function finished(groups: KeptGroup[], kind: 'day_plan' | 'sick_call' = 'day_plan'): Promise<string> {
  const id = randomUUID();
  const parts = { travel: 100, wait: 0, overtime: 0, fairness: 0, pairing: 0, change: 0, promises: 0, leftOut: 0 };
  const one = { day, cost: 100, bound: 100, proven: true, gapPercent: 0, within: 'crews that stay together', stopped: false, parts };
  const days = [{ ...one, visits: 2, groups, savingMinutes: 12, drivingSavedMinutes: 10, leftOut: [] }];
  await api.database.transaction(async (tx) => {
    await insertPlan(tx, { id, kind, fromDay: day, toDay: day, ask: { weights: {} }, askedBy: CAST.office.id, askedAt: api.clock.now });
    await endPlan(tx, id, {
      state: 'finished',
      note: null,
      at: api.clock.now,
      fingerprint: 'x',
      result: { variants: [{ key: 'plan', days }] },
    });
  });
  return id;
}
const acceptGroups = (id: string, groups: string[], once = false) =>
  api.send('office', 'POST', `/api/plans/${id}/acceptance`, { body: { groups }, once });
const crew = async (visitId: string) =>
  (
    await api.database.read.rows<{ first: string; second: string; start: string }>(
      `SELECT max(a.person_id::text) FILTER (WHERE a.place = 'first') AS first, max(a.person_id::text) FILTER (WHERE a.place = 'second') AS second, to_char(min(a.starts_at) AT TIME ZONE 'America/Chicago', 'HH24:MI') AS start
       FROM assignment a WHERE a.visit_id = $1::uuid AND a.live`,
      [visitId],
    )
  )[0]!;
const mailOf = (about: string) =>
  api.database.read.rows<{ to: string; body: string }>(
    'SELECT to_address AS to, body FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY to_address',
    [about],
  );

describe('accepting a plan', () => {
  it('exchanges people between two visits at the same time, tells each of the four once, and no client', async () => {
    const [one, two] = [await book(9, anna, ben), await book(9, cora, dan)];
    const id = await finished([group(0, move(one, spot(9, anna, dan)), move(two, spot(9, cora, ben)))]);
    const answer = await acceptGroups(id, [`plan/${day}/0`]);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 201,
      body: { accepted: [`plan/${day}/0`], refused: [], calls: 0 },
    });
    expect(await crew(one.visitId)).toMatchObject({ first: anna.id, second: dan.id });
    expect(await crew(two.visitId)).toMatchObject({ first: cora.id, second: ben.id });
    const mails = await mailOf(id);
    expect(mails.map(({ to }) => to)).toEqual([anna, ben, cora, dan].map(({ email }) => email).sort());
    expect(mails.find(({ to }) => to === ben.email)!.body).toContain('no longer yours');
    expect(await mailOf(one.jobId)).toEqual([]);
    const trail = await api.send('owner', 'GET', `/api/audit?thingKind=visit&thingId=${one.visitId}`);
    expect(trail.body.items[0]).toMatchObject({ operation: 'schedule.accept-plan' });
  });

  it('makes the chosen groups only', async () => {
    const [one, two] = [await book(9, anna, ben), await book(13, cora, dan)];
    const id = await finished([group(0, move(one, spot(10, anna, ben))), group(1, move(two, spot(12, cora, dan)))]);
    expect((await acceptGroups(id, [`plan/${day}/1`])).status).toBe(201);
    expect(await crew(one.visitId)).toMatchObject({ start: '09:00' });
    expect(await crew(two.visitId)).toMatchObject({ start: '12:00' });
    expect(await acceptGroups(id, [`plan/${day}/1`])).toMatchObject({ status: 409, body: { code: 'plan-accepted' } });
    expect((await acceptGroups(id, [`plan/${day}/0`])).status).toBe(201);
  });

  it('refuses by name what changed since, and makes the rest', async () => {
    const [one, two] = [await book(9, anna, ben), await book(13, cora, dan)];
    const id = await finished([group(0, move(one, spot(10, anna, ben))), group(1, move(two, spot(12, cora, dan)))]);
    const lock = await api.send('lead', 'PUT', `/api/visits/${one.visitId}/lock`, {
      version: 1,
      body: { because: 'The owner opens at nine.' },
    });
    expect(lock.status, JSON.stringify(lock.body)).toBe(200);
    const answer = await acceptGroups(id, [`plan/${day}/0`, `plan/${day}/1`]);
    expect(answer).toMatchObject({ status: 201, body: { accepted: [`plan/${day}/1`] } });
    expect(answer.body.refused[0].sentences[0]).toContain('was changed since the plan was made');
    expect(await crew(one.visitId)).toMatchObject({ start: '09:00' });
  });

  it('refuses a move that a booking made impossible meanwhile, and changes nothing when none is left', async () => {
    const one = await book(9, anna, ben);
    const id = await finished([group(0, move(one, spot(13, anna, ben)))]);
    await book(12, anna, lead);
    const answer = await acceptGroups(id, [`plan/${day}/0`]);
    expect(answer).toMatchObject({ status: 409, body: { code: 'plan-outdated' } });
    expect(answer.body.title).toContain('Anna Inspector');
    expect(await crew(one.visitId)).toMatchObject({ start: '09:00' });
    expect(await mailOf(id)).toEqual([]);
  });

  it('takes along who came along and still can, leaves behind who cannot, and tells both', async () => {
    const [one] = [await book(9, anna, ben), await book(13, cora, dan)];
    for (const { id: personId } of [dan, lead])
      expect(
        (await api.send('office', 'POST', `/api/visits/${one.visitId}/observers`, { body: { personId, reason: 'other' } })).status,
      ).toBe(201);
    const id = await finished([group(0, move(one, spot(13, anna, ben)))]);
    const answer = await acceptGroups(id, [`plan/${day}/0`]);
    expect(answer.status, JSON.stringify(answer.body)).toBe(201);
    const along = await api.database.read.rows<{ id: string }>('SELECT person_id::text AS id FROM observer WHERE visit_id = $1::uuid', [
      one.visitId,
    ]);
    expect(along).toEqual([{ id: lead.id }]);
    const mails = await mailOf(id);
    expect(mails.find(({ to }) => to === dan.email)!.body).toContain('you no longer come along');
    expect(mails.find(({ to }) => to === lead.email)!.body).toContain('you come along, now');
  });

  it('lets only one win when a plan and a booking want the same people at once', async () => {
    const one = await book(9, anna, ben);
    const id = await finished([group(0, move(one, spot(13, anna, ben)))]);
    const other = await book(9, lead, lead2);
    const version = 1;
    const [accepted, moved] = await Promise.all([
      acceptGroups(id, [`plan/${day}/0`], true),
      api.send('office', 'PUT', `/api/visits/${other.visitId}/start`, {
        version,
        body: { startsAt: at(13), first: anna.id, second: lead2.id },
      }),
    ]);
    expect([accepted.status, moved.status].sort((a, b) => a - b)[1], JSON.stringify([accepted.body, moved.body])).toBe(409);
    const rows = await api.database.read.rows(
      `SELECT 1 FROM assignment a JOIN assignment b ON a.person_id = b.person_id AND a.visit_id < b.visit_id AND a.during && b.during WHERE a.live AND b.live`,
    );
    expect(rows).toEqual([]);
  });

  it('tells a client of a new start, keeps a promised window, and voids it beyond', async () => {
    const [one, two] = [await book(9, anna, ben), await book(9, cora, dan)];
    for (const { visitId } of [one, two]) {
      const body = { window: { from: at(8), until: at(10) } };
      expect((await api.send('office', 'PUT', `/api/visits/${visitId}/promise`, { version: 1, body })).status).toBe(200);
    }
    const moves = [move(one, spot(10, anna, ben)), move(two, spot(13, cora, dan))].map((m) => ({ ...m, version: 2 }));
    const id = await finished([group(0, moves[0]!), group(1, moves[1]!)]);
    expect((await acceptGroups(id, [`plan/${day}/0`, `plan/${day}/1`])).status).toBe(201);
    const kept = await api.database.read.rows<{ id: string; kept: boolean }>(
      'SELECT id::text AS id, promised_from IS NOT NULL AS kept FROM visit WHERE id = ANY($1::uuid[])',
      [[one.visitId, two.visitId]],
    );
    expect(Object.fromEntries(kept.map((row) => [row.id, row.kept]))).toEqual({ [one.visitId]: true, [two.visitId]: false });
  });

  it('takes a visit that finds no place off the calendar and lists its client first to be called', async () => {
    const [one, two] = [await book(9, anna, ben), await book(13, cora, dan)];
    const id = await finished([group(0, move(one, null), move(two, spot(9, ben, cora)))], 'sick_call');
    expect(await acceptGroups(id, [`plan/${day}/0`])).toMatchObject({ status: 201, body: { calls: 2 } });
    const plan = await api.send('office', 'GET', `/api/plans/${id}`);
    expect(plan.status, JSON.stringify(plan.body)).toBe(200);
    expect(plan.body.calls.map((call: { because: string }) => call.because)).toEqual(['left_out', 'moved']);
    const [call] = plan.body.calls;
    expect(call.words).toContain('agree on another time');
    expect((await api.send('office', 'PUT', `/api/plan-calls/${call.id}`, { body: { done: true } })).status).toBe(200);
    const home: { key: string; items: { thing: { id: string } }[] }[] = (await api.send('office', 'GET', '/api/home')).body.lists;
    const things = (key: string) => home.find((list) => list.key === key)!.items.map(({ thing }) => thing.id);
    expect(things('clientsToCall')).toEqual([id]);
    expect(things('jobsWithoutTime')).toEqual([one.jobId]);
    const job = await api.send('office', 'GET', `/api/jobs/${one.jobId}`);
    expect(job.body).toMatchObject({ state: 'booked' });
  });

  it.each([
    ['an unknown group', 404, 'not-found', randomUUID(), ['plan/2026-05-13/9']],
    ['no group', 422, undefined, randomUUID(), []],
  ])('refuses %s', async (_what, status, code, id, groups) => {
    const answer = await acceptGroups(id, groups);
    expect(answer.status).toBe(status);
    if (code) expect(answer.body.code).toBe(code);
  });
});
