// A plan of several days as one: a visit whose client was promised several days goes where it costs least; others stay.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { hourAt as at, planEnded } from '../support/plans.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const { anna, ben } = CAST;
const [TUE, WED, FRI] = ['2026-05-19', '2026-05-20', '2026-05-22'];
const FAR = { lat: 44.3, lon: -88.3 };
type Move = { visitId: string; sentence: string; before: { day: string }; after: { day: string } | null };

const house = async (street: string, day: string, hour: number) => {
  const crew = { first: anna.id, second: ben.id };
  const made = await bookedVisit(api, { startsAt: at(day, hour), endsAt: at(day, hour + 2), ...crew, street });
  await api.database.transaction((tx) => tx.db.property.updateMany({ where: { address: street }, data: FAR }));
  return made;
};
const planned = async (acrossDays: boolean, from = TUE, to = FRI) => {
  const id = randomUUID();
  const asked = await api.send('office', 'POST', '/api/plans', { body: { id, from, to, weights: {}, acrossDays } });
  expect(asked.status, JSON.stringify(asked.body)).toBe(201);
  const plan = await planEnded(api, `/api/plans/${id}`);
  expect(plan, JSON.stringify(plan.note)).toMatchObject({ state: 'finished' });
  const { days } = plan.answer.variants[0];
  return { id, days, groups: days.flatMap(({ groups }: { groups: { key: string; moves: Move[] }[] }) => groups) };
};
const dayOf = async (id: string): Promise<string> =>
  (await api.database.read.rows<{ day: string }>(`SELECT starts_at::date::text AS day FROM visit WHERE id = $1::uuid`, [id]))[0]!.day;

describe('a move that must be made', () => {
  it('says who is away instead of what it saves', async () => {
    const MON = '2026-05-18';
    const { visitId } = await house('3 Needed Lane', MON, 9);
    const absence = { id: randomUUID(), startsAt: at(MON, 0), endsAt: at(TUE, 0), reason: 'ill' };
    expect((await api.send('office', 'POST', `/api/people/${ben.id}/absences`, { body: absence })).status).toBe(201);
    const { groups } = await planned(false, MON, MON);
    const group = groups.find(({ moves }: { moves: Move[] }) => moves.some((move) => move.visitId === visitId));
    expect(group, JSON.stringify(groups)).toMatchObject({ away: [ben.name] });
  });
});

let free: { jobId: string; visitId: string };

describe('several days planned as one', () => {
  beforeAll(async () => {
    // Two houses far away, side by side, on two days: one drive would do.
    free = await house('1 Far Shore', TUE, 13);
    await house('2 Far Shore', WED, 10);
  });
  const version = async () =>
    (await api.database.read.rows<{ version: number }>(`SELECT version FROM visit WHERE id = $1::uuid`, [free.visitId]))[0]!.version;
  const promise = async (from: string, until: string) =>
    api.send('office', 'PUT', `/api/visits/${free.visitId}/promise`, { version: await version(), body: { window: { from, until } } });
  const dayMoves = (groups: { moves: Move[] }[]) =>
    groups.flatMap(({ moves }) => moves).filter(({ before, after }) => before.day !== after?.day);

  it('keeps every visit on its day while the client was promised the very start', async () => {
    const { days, groups } = await planned(true);
    expect(days).toMatchObject([{ day: TUE, toDay: FRI, visits: 2, proven: true, leftOut: [] }]);
    expect(dayMoves(groups)).toEqual([]);
  });
  it('takes a promise of several days, up to 14 of them', async () => {
    expect((await promise(at(TUE, 8), at('2026-06-10', 8))).body).toMatchObject({ code: 'visit-promise' });
    expect(await promise(at(TUE, 8), at(WED, 14))).toMatchObject({ status: 200 });
  });
  it('leaves it on its day when it was not asked to choose the day', async () => {
    expect(dayMoves((await planned(false)).groups)).toEqual([]);
  });
  it('leaves it on its day when the access is agreed, or the report would come too late', async () => {
    const set = (sql: string) => api.database.transaction((tx) => tx.rows(sql, [free.jobId]));
    await set(
      `INSERT INTO job_need (id, job_id, kind, state, details, due_at, recorded_at) VALUES (gen_random_uuid(), $1::uuid, 'access', 'settled', '{}', now(), now()) ON CONFLICT (job_id, kind) DO UPDATE SET state = 'settled'`,
    );
    expect(dayMoves((await planned(true)).groups)).toEqual([]);
    await set(`UPDATE job_need SET state = 'open' WHERE job_id = $1::uuid AND kind = 'access'`);
    await set(`UPDATE job SET objection_on = '${TUE}' WHERE id = $1::uuid`);
    expect(dayMoves((await planned(true)).groups)).toEqual([]);
    await set(`UPDATE job SET objection_on = NULL WHERE id = $1::uuid`);
  });
  it('moves it to the other day, says from when to when, and is accepted', async () => {
    const { id, groups } = await planned(true);
    const [move] = dayMoves(groups);
    expect(move, JSON.stringify(groups)).toMatchObject({ visitId: free.visitId, before: { day: TUE }, after: { day: WED } });
    expect(move!.sentence).toMatch(/1 Far Shore, Birchmere on Wed, May 20.* instead of Tue, May 19/);
    const accepted = await api.send('office', 'POST', `/api/plans/${id}/acceptance`, {
      body: { groups: groups.map(({ key }: { key: string }) => key) },
    });
    expect(accepted, JSON.stringify(accepted.body)).toMatchObject({ status: 201, body: { refused: [] } });
    expect(await dayOf(free.visitId)).toBe(WED);
    const told = await api.database.read.rows(
      `SELECT 1 FROM outgoing_mail WHERE about_kind = 'visit' OR about_kind = 'job' OR about_kind = 'plan'`,
      [],
    );
    expect(told.length).toBeGreaterThan(0);
  });
});
