// Plans through the API: asked, made in the planner's thread, shown, accepted.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Reader } from '@backsight/store/database';
import { readPlan } from '@backsight/usecases/schedule/readPlan';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { hourAt as at, planEnded } from '../support/plans.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const { anna, ben, cora, dan, lead, lead2 } = CAST;
const DAY = '2026-05-14';

const ended = (id: string) => planEnded(api, `/api/plans/${id}`);
const ask = async (body: Record<string, unknown>) => {
  const id = randomUUID();
  return { id, ...(await api.send('office', 'POST', '/api/plans', { body: { id, from: DAY, to: DAY, ...body } })) };
};
const crewOf = async (visitId: string): Promise<string[]> =>
  (
    await api.database.read.rows<{ id: string }>(`SELECT person_id::text AS id FROM assignment WHERE visit_id = $1::uuid ORDER BY place`, [
      visitId,
    ])
  ).map(({ id }) => id);
let north: { jobId: string; visitId: string };
const house = (street: string, first: { id: string }, second: { id: string }, from: number, place: [number, number]) =>
  bookedVisit(api, { startsAt: at(DAY, from), endsAt: at(DAY, from + 3), first: first.id, second: second.id, street }).then(
    async (made) => {
      await api.database.transaction((tx) =>
        tx.db.property.updateMany({ where: { address: street }, data: { lat: place[0], lon: place[1] } }),
      );
      return made;
    },
  );

describe('a day plan', () => {
  beforeAll(async () => {
    // Those who live in the north are sent south and the other way round.
    north = await house('1 North Pier', anna, ben, 9, [44.2, -88.46]);
    await house('1 South Mill', cora, dan, 9, [44.03, -88.55]);
  });
  it('lets those go who live near, says what it saves, proves it, and is accepted', async () => {
    const asked = await ask({});
    expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 201 });
    const plan = await ended(asked.id);
    expect(plan, JSON.stringify(plan)).toMatchObject({ state: 'finished', changedSince: false, kind: 'day_plan' });
    const [day] = plan.answer.variants[0].days;
    expect(day).toMatchObject({ day: DAY, proven: true, visits: 2 });
    expect(day.drivingSavedMinutes).toBeGreaterThan(40);
    const keys = day.groups.map((group: { key: string }) => group.key);
    const accepted = await api.send('office', 'POST', `/api/plans/${asked.id}/acceptance`, { body: { groups: keys } });
    expect(accepted, JSON.stringify(accepted.body)).toMatchObject({ status: 201, body: { accepted: keys, refused: [] } });
    expect([cora.id, dan.id, lead2.id]).toEqual(expect.arrayContaining(await crewOf(north.visitId)));
  });
  it('finds nothing better the second time, and says when the day changed since', async () => {
    const asked = await ask({});
    const plan = await ended(asked.id);
    expect(plan.answer.variants[0].days[0]).toMatchObject({ groups: [], proven: true });
    await house('9 Bay Lane', lead, lead2, 13, [44.1, -88.5]);
    expect((await api.send('office', 'GET', `/api/plans/${asked.id}`)).body.changedSince).toBe(true);
  });
  it('leaves a locked visit and what was promised', async () => {
    const version = (
      await api.database.read.rows<{ version: number }>(`SELECT version FROM visit WHERE id = $1::uuid`, [north.visitId])
    )[0]!.version;
    const body = { because: 'The client knows them.' };
    expect((await api.send('office', 'PUT', `/api/visits/${north.visitId}/lock`, { version, body })).status).toBe(200);
    const kept = await api.send('office', 'GET', `/api/visits/${north.visitId}/kept`);
    expect(kept.body).toMatchObject({ version: version + 1, window: null, lock: { by: CAST.office.name, because: body.because } });
    const early = { from: at(DAY, 6), until: at(DAY, 7) };
    const refused = await api.send('office', 'PUT', `/api/visits/${north.visitId}/promise`, {
      version: version + 1,
      body: { window: early },
    });
    expect(refused.body).toMatchObject({ code: 'visit-promise' });
    const stale = await api.send('office', 'PUT', `/api/visits/${north.visitId}/lock`, { version, body: { because: null } });
    expect(stale.body).toMatchObject({ code: 'changed-meanwhile' });
    const plan = await ended((await ask({ weights: { travel: 5 } })).id);
    const moves = plan.answer.variants[0].days[0].groups.flatMap(
      (group: { moves: { visitId: string; before: { start: number }; after: { start: number } }[] }) => group.moves,
    );
    expect(moves.map((move: { visitId: string }) => move.visitId)).not.toContain(north.visitId);
    for (const move of moves) expect(move.after.start).toBe(move.before.start);
    expect(plan.weights.travel).toBe(5);
  });
  it('spares those who still write the reports of the day before', async () => {
    const [before, on] = ['2026-05-19', '2026-05-20'];
    const fromSouth = { startsAt: at(on, 9), endsAt: at(on, 12), first: anna.id, second: ben.id, street: '2 North Pier' };
    const far = await bookedVisit(api, fromSouth);
    // Everybody who lives in the north would be nearer, and has hours of writing left.
    const visits = [
      [cora, anna],
      [dan, ben],
      [lead2, lead],
    ] as const;
    for (const [first, second] of visits)
      await bookedVisit(api, { startsAt: at(before, 9), endsAt: at(before, 12), first: first.id, second: second.id });
    await api.database.transaction(async (tx) => {
      await tx.db.property.updateMany({ where: { address: fromSouth.street }, data: { lat: 44.2, lon: -88.46 } });
      await tx.db.visit.updateMany({ where: { startsAt: new Date(at(before, 9)) }, data: { reportMinutes: 640 } });
    });
    const asked = await ask({ from: on, to: on });
    const moves = (await ended(asked.id)).answer.variants[0].days[0].groups.flatMap((group: { moves: unknown[] }) => group.moves);
    expect(moves).toEqual([]);
    await api.database.transaction((tx) =>
      tx.db.visit.updateMany({ where: { startsAt: new Date(at(before, 9)) }, data: { reportMinutes: 60 } }),
    );
    const again = await ask({ from: on, to: on });
    const keys = (await ended(again.id)).answer.variants[0].days[0].groups.map((group: { key: string }) => group.key);
    expect(await api.send('office', 'POST', `/api/plans/${again.id}/acceptance`, { body: { groups: keys } })).toMatchObject({
      status: 201,
      body: { refused: [] },
    });
    expect(await crewOf(far.visitId)).not.toContain(anna.id);
  });
  it.each([
    [{ from: '2026-05-01', to: '2026-05-01' }, 'plan-days-past'],
    [{ from: '2026-05-15', to: '2026-05-14' }, 'plan-days-order'],
    [{ from: '2026-05-14', to: '2026-05-30' }, 'plan-days-many'],
  ])('refuses %o', async (body, code) => {
    expect((await ask(body)).body).toMatchObject({ code });
  });
  it.each([[{ weights: { travel: -1 } }], [{ weights: { travel: 0.01 } }], [{ weights: { speed: 1 } }], [{ from: 'soon' }]])(
    'does not read %o',
    async (body) => {
      expect((await ask(body)).status).toBe(422);
    },
  );
  it('is not for those who only inspect', async () => {
    expect((await api.send('anna', 'POST', '/api/plans', { body: { id: randomUUID(), from: DAY, to: DAY } })).status).toBe(403);
  });
});

describe('somebody is out', () => {
  it('shows three ways that keep the visits, each proven; those under way keep their people', async () => {
    const [out] = await crewOf(north.visitId);
    const absenceId = randomUUID();
    const absence = { id: absenceId, startsAt: at(DAY, 0), endsAt: at('2026-05-15', 0), reason: 'ill' };
    expect((await api.send('office', 'POST', `/api/people/${out}/absences`, { body: absence })).status).toBe(201);
    const id = randomUUID();
    const asked = await api.send('office', 'POST', '/api/sick-calls', { body: { id, absenceId } });
    expect(asked.status, JSON.stringify(asked.body)).toBe(201);
    const plan = await ended(id);
    expect(plan, JSON.stringify(plan.note)).toMatchObject({
      state: 'finished',
      changedSince: false,
      outName: Object.values(CAST).find(({ id: one }) => one === out)!.name,
    });
    const early: Reader = {
      rows: async <T>(sql: string, params?: readonly unknown[]) =>
        (await api.database.read.rows<T>(sql, params)).map((row) =>
          (row as { fingerprint?: string }).fingerprint ? { ...row, state: 'asked', fingerprint: null } : row,
        ),
    };
    expect(await readPlan(early, api.clock.now, id), 'read the moment before it ended').toMatchObject({
      value: { state: 'asked', answer: null, changedSince: false },
    });
    expect(plan.answer.variants.map(({ key }: { key: string }) => key)).toEqual(['fewest_changes', 'balanced', 'cheapest']);
    for (const { days } of plan.answer.variants) {
      expect(days).toMatchObject([{ proven: true, leftOut: [] }]);
      const after = days[0].groups.flatMap(({ moves }: { moves: { after: { first: string; second: string } }[] }) =>
        moves.map((move) => move.after),
      );
      expect(after.length).toBeGreaterThan(0);
      for (const spot of after) expect([spot.first, spot.second]).not.toContain(out);
    }
    const keys = plan.answer.variants[0].days[0].groups.map((group: { key: string }) => group.key);
    const accepted = await api.send('office', 'POST', `/api/plans/${id}/acceptance`, { body: { groups: keys } });
    expect(accepted, JSON.stringify(accepted.body)).toMatchObject({ status: 201, body: { refused: [] } });
    const other = plan.answer.variants[2].days[0].groups[0]?.key;
    if (other)
      expect(await api.send('office', 'POST', `/api/plans/${id}/acceptance`, { body: { groups: [other] } })).toMatchObject({
        body: { code: 'plan-other-variant' },
      });
  });
  it('asks for an absence that counts', async () => {
    const absenceId = randomUUID();
    await api.send('dan', 'POST', `/api/people/${dan.id}/absences`, {
      body: { id: absenceId, startsAt: at(DAY, 12), endsAt: at(DAY, 15), reason: 'x' },
    });
    expect((await api.send('office', 'POST', '/api/sick-calls', { body: { id: randomUUID(), absenceId } })).body.code).toBe(
      'absence-not-approved',
    );
    expect((await api.send('office', 'POST', '/api/sick-calls', { body: { id: randomUUID(), absenceId: randomUUID() } })).body.code).toBe(
      'not-found',
    );
  });
});
