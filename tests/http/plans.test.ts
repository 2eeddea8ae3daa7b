// Plans through the API: asked, made in the planner's thread, stopped, broken off, shown, accepted.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askDayPlan } from '@backsight/usecases/schedule/askPlan';
import { losePlans } from '@backsight/usecases/schedule/endPlan';
import { as, CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { plannerOf } from '../support/services.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const { anna, ben, cora, dan, lead, lead2 } = CAST;
const at = (day: string, hour: number, minute = 0): string =>
  `${day}T${String(hour + 5).padStart(2, '0')}:${String(minute).padStart(2, '0')}:00.000Z`;
const DAY = '2026-05-14';

const ended = async (id: string) => {
  for (let tries = 0; tries < 200; tries++) {
    const plan = await api.send('office', 'GET', `/api/plans/${id}`);
    expect(plan.status, JSON.stringify(plan.body)).toBe(200);
    if (plan.body.state !== 'asked') return plan.body;
    await wait(50);
  }
  throw new Error('the plan did not end');
};
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
      outName: Object.values(CAST).find(({ id: one }) => one === out)!.name,
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

describe('the planner', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-planner-'));
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));
  /** A planner whose thread runs this program instead. */
  const withThread = (program: string, settings: Partial<Parameters<typeof plannerOf>[1]> = {}) => {
    const file = path.join(folder, `${randomUUID()}.mjs`);
    fs.writeFileSync(file, `import { parentPort } from 'node:worker_threads';\n${program}`);
    return plannerOf(api, { workerFile: file, ...settings });
  };
  const asked = async (): Promise<string> => {
    const id = randomUUID();
    await api.runner.run(askDayPlan, { id, from: DAY, to: DAY, weights: {} }, { actor: as('office') });
    return id;
  };

  it('ends a plan whose thread crashes with a clear word, and makes the next', async () => {
    const planner = withThread(`parentPort.on('message', () => process.exit(9));`);
    const [first, second] = [await asked(), await asked()];
    planner.make(first);
    planner.make(second);
    expect(planner.progress(second)).toMatchObject({ waiting: 1 });
    expect(await ended(first)).toMatchObject({ state: 'failed', note: expect.stringContaining('Nothing was changed') });
    expect(await ended(second)).toMatchObject({ state: 'failed' });
    await planner.close();
  });
  it('tells how far it is, and lets the best so far be the answer when it is stopped', async () => {
    const planner = withThread(`parentPort.on('message', ({ stop }) => {
      parentPort.postMessage({ kind: 'progress', run: 0, phase: 'bound', cost: 120.5, bound: 90 });
      const flag = new Int32Array(stop);
      const watch = setInterval(() => { if (Atomics.load(flag, 0)) { clearInterval(watch); parentPort.postMessage({ kind: 'failed', message: 'stopped as told' }); } }, 10);
    });`);
    const id = await asked();
    planner.make(id);
    await expect
      .poll(() => planner.progress(id))
      .toMatchObject({ of: 1, day: DAY, phase: 'bound', cost: 120.5, bound: 90, stopping: false });
    expect(planner.stop(id)).toBe(true);
    expect(planner.progress(id)).toMatchObject({ stopping: true });
    expect((await ended(id)).note).toContain('stopped as told');
    expect(planner.stop(id)).toBe(false);
    await planner.close();
  });
  it('ends a thread that does not hear, at the limit of time', async () => {
    const planner = withThread(`parentPort.on('message', () => { for (;;); });`, { limitMs: 100, patienceMs: 100 });
    const id = await asked();
    planner.make(id);
    expect(await ended(id)).toMatchObject({ state: 'stopped', note: expect.stringContaining('before there was any plan') });
    await planner.close();
  });
  it('stops a plan that waits, and says after a restart what was lost', async () => {
    const planner = withThread(`parentPort.on('message', () => {});`);
    const [first, second, third] = [await asked(), await asked(), await asked()];
    planner.make(first);
    planner.make(second);
    planner.make(third);
    expect(planner.stop(third)).toBe(true);
    expect(await ended(third)).toMatchObject({ state: 'stopped' });
    await planner.close();
    await api.runner.run(losePlans, {}, { actor: { kind: 'service' } });
    for (const id of [first, second])
      expect(await ended(id)).toMatchObject({ state: 'lost', note: expect.stringContaining('started again') });
  });
});

describe('a bad-weather day', () => {
  const SNOW = '2026-05-19';
  const snowAt = (hour: number) => at(SNOW, hour);
  const closure = (change: Record<string, unknown> = {}) => ({
    id: randomUUID(),
    startsAt: snowAt(0),
    endsAt: at('2026-05-20', 0),
    outdoorOnly: false,
    towns: [],
    reason: 'ice storm',
    ...change,
  });
  const close = (body: Record<string, unknown>) => api.send('office', 'POST', '/api/weather-closures', { body });

  it('moves its visits together to the days after, those that must be early first, and books nothing into it', async () => {
    const made = [];
    for (const [n, [first, second]] of [
      [anna, ben],
      [cora, dan],
    ].entries())
      made.push(
        await bookedVisit(api, {
          startsAt: snowAt(9),
          endsAt: snowAt(12),
          first: first!.id,
          second: second!.id,
          street: `${n} Frost Road`,
        }),
      );
    const [one, two] = made as [(typeof made)[0], (typeof made)[0]];
    const body = closure();
    expect((await close(body)).status).toBe(201);
    const shown = await api.send('office', 'GET', '/api/weather-closures');
    expect(shown.status, JSON.stringify(shown.body)).toBe(200);
    expect(shown.body.items[0].visits.map(({ id }: { id: string }) => id).sort()).toEqual([one.visitId, two.visitId].sort());
    expect(shown.body.mail).toContain('Nothing is charged');
    const moved = await api.send('office', 'PUT', `/api/visits/${one.visitId}/start`, {
      version: 1,
      body: { startsAt: snowAt(13), first: anna.id, second: ben.id },
    });
    expect(moved.body).toMatchObject({ code: 'start-not-possible', about: { rules: ['weather'] } });

    const id = randomUUID();
    expect((await api.send('office', 'POST', `/api/weather-closures/${body.id}/plans`, { body: { id } })).status).toBe(201);
    const plan = await ended(id);
    expect(plan, plan.note).toMatchObject({ state: 'finished', kind: 'weather' });
    for (const { days } of plan.answer.variants) {
      const moves = days.flatMap(
        ({ groups }: { groups: { moves: { visitId: string; before: { day: string }; after: { day: string } }[] }[] }) =>
          groups.flatMap((group) => group.moves),
      );
      const of = (visitId: string) => moves.filter((move: { visitId: string }) => move.visitId === visitId);
      for (const { visitId } of made) {
        expect(of(visitId)).toHaveLength(1);
        expect(of(visitId)[0]).toMatchObject({ before: { day: SNOW } });
        expect(of(visitId)[0].after.day > SNOW, JSON.stringify(of(visitId))).toBe(true);
      }
      expect(days.every(({ proven, leftOut }: { proven: boolean; leftOut: unknown[] }) => proven && leftOut.length === 0)).toBe(true);
    }
    const keys = plan.answer.variants[1].days.flatMap(({ groups }: { groups: { key: string }[] }) => groups.map(({ key }) => key));
    const accepted = await api.send('office', 'POST', `/api/plans/${id}/acceptance`, { body: { groups: keys } });
    expect(accepted, JSON.stringify(accepted.body)).toMatchObject({ status: 201, body: { refused: [], calls: 0 } });
    expect((await api.send('office', 'GET', '/api/weather-closures')).body.items[0].visits).toEqual([]);
    const mails = await api.database.read.rows<{ to: string; n: number }>(
      `SELECT to_address AS to, count(*)::int AS n FROM outgoing_mail WHERE about_id = ANY($1::uuid[]) GROUP BY 1 HAVING count(*) > 1`,
      [[id, one.jobId, two.jobId]],
    );
    expect(mails).toEqual([]);
    expect((await api.send('office', 'PUT', `/api/weather-closures/${body.id}/end`)).status).toBe(200);
    expect((await api.send('office', 'PUT', `/api/weather-closures/${body.id}/end`)).status).toBe(404);
  });
  it.each([
    ['an end before the start', { endsAt: at('2026-05-18', 0) }, 'weather-closure-times'],
    ['a time that is over', { startsAt: at('2026-05-01', 0), endsAt: at('2026-05-02', 0) }, 'closure-past'],
    ['a time of two months', { endsAt: at('2026-07-20', 0) }, 'weather-closure-times'],
    ['a town that the firm does not serve', { towns: ['Atlantis'] }, 'town-not-known'],
  ])('refuses %s', async (_what, change, code) => {
    expect((await close(closure(change))).body).toMatchObject({ code });
  });
});

describe('what if', () => {
  const askWhatIf = async (change: Record<string, unknown>, who: 'owner' | 'lead' = 'owner', from = '2026-05-14') => {
    const id = randomUUID();
    return { id, ...(await api.send(who, 'POST', '/api/what-ifs', { body: { id, from, weeks: 1, change } })) };
  };
  const answered = async (id: string) => {
    for (let tries = 0; tries < 400; tries++) {
      const { body } = await api.send('owner', 'GET', `/api/what-ifs/${id}`);
      if (body.state !== 'asked') return body;
      await wait(50);
    }
    throw new Error('no answer');
  };
  beforeAll(async () => {
    for (const [n, hour] of [9, 13].entries())
      await bookedVisit(api, {
        startsAt: at('2025-05-13', hour),
        endsAt: at('2025-05-13', hour + 3),
        first: anna.id,
        second: ben.id,
        street: `${n} Last Year Lane`,
        state: 'done',
      });
    const away = { lat: 44.3, lon: -88.3 };
    await api.database.transaction((tx) => tx.db.property.updateMany({ where: { address: { endsWith: 'Last Year Lane' } }, data: away }));
  });

  it('plans the same week of last year with one more, week by week', async () => {
    const asked = await askWhatIf({ kind: 'one_more', likeId: anna.id, town: null });
    expect(asked.status, JSON.stringify(asked.body)).toBe(201);
    const plan = await answered(asked.id);
    expect(plan, plan.note).toMatchObject({ state: 'finished', inWords: 'One more like Anna Inspector' });
    expect(plan.answer.weeks).toMatchObject([
      { monday: '2025-05-12', visits: 2, now: { placed: 2, fit: 4, unproven: 0 }, then: { placed: 2, fit: 4, unproven: 0 } },
    ]);
  });
  it('drives twice as long at half the speed', async () => {
    const [week] = (await answered((await askWhatIf({ kind: 'speed', percent: 50 })).id)).answer.weeks;
    expect(week.then.driving).toBeGreaterThan(week.now.driving * 1.5);
    expect(week.then.driving).toBeLessThan(week.now.driving * 2.1);
  });
  it('compares with no other weeks when there was no visit in those', async () => {
    const plan = await answered((await askWhatIf({ kind: 'speed', percent: 120 }, 'owner', '2026-08-10')).id);
    expect(plan).toMatchObject({ state: 'failed', answer: null, note: expect.stringContaining('other weeks would not compare') });
  });
  it('is refused for people and towns that there are not, and to a lead', async () => {
    expect((await askWhatIf({ kind: 'base', personId: randomUUID(), town: 'Birchmere' })).body.code).toBe('not-found');
    expect((await askWhatIf({ kind: 'base', personId: anna.id, town: 'Atlantis' })).body.code).toBe('town-not-known');
    expect((await askWhatIf({ kind: 'speed', percent: 0 })).status).toBe(422);
    expect((await askWhatIf({ kind: 'speed', percent: 120 }, 'lead')).status).toBe(403);
  });
});
