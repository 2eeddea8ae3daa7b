// Tag: time.
// Figures of the steps over inserted rows: one chart against a published example, and every bad input with a right answer.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { execute } from '@backsight/store/database';
import { findInForce } from '@backsight/store/procedures';
import { keepText } from '@backsight/store/text';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { computers } from '../../published/data/charts.ts';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { on } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const STEP = 'panel-interior';
const jobs: House[] = [];
let like: string;
const step = async (key = STEP, who: 'owner' | 'lead' = 'owner') => api.send(who, 'GET', `/api/liability/steps/${key}`);

const revisionOf = async (key: string): Promise<string> =>
  (await findInForce(api.database.read, api.clock.now)).find(({ steps }) => steps.some((one) => one.key === key))!.revisionId;

type House = { jobId: string; at: Date; times: number };

/** Houses like one that was booked, each inspected at its time, where the step applied so many times. */
async function inspected(key: string, like: string, houses: readonly House[]): Promise<void> {
  const revisionId = await revisionOf(key);
  await api.database.transaction(async (tx) => {
    const given = [houses.map(({ jobId }) => jobId), houses.map(({ at }) => at.toISOString()), houses.map(({ times }) => times)];
    await execute(
      tx,
      `INSERT INTO job (id, number, office_id, property_id, kind, state, facts, schedule_id, rules_id, terms, recorded_at)
       SELECT h.id, (SELECT max(number) FROM job) + h.n, j.office_id, j.property_id, j.kind, j.state, j.facts, j.schedule_id, j.rules_id, j.terms, h.at
       FROM unnest($1::uuid[], $2::timestamptz[]) WITH ORDINALITY h(id, at, n), job j WHERE j.id = $3::uuid`,
      ...[given[0], given[1], like],
    );
    await execute(
      tx,
      `WITH house AS (SELECT h.*, gen_random_uuid() AS visit, gen_random_uuid() AS record, gen_random_uuid() AS package FROM unnest($1::uuid[], $2::timestamptz[], $3::int[]) h(id, at, times)),
         v AS (INSERT INTO visit (id, job_id, kind, crew_size, state, live, starts_at, ends_at, because, recorded_at) SELECT visit, id, 'inspection', 2, 'done', true, at, at + interval '3 hours', '{}', at FROM house),
         a AS (INSERT INTO assignment (visit_id, person_id, place, starts_at, ends_at, live) SELECT h.visit, p.id, p.place, h.at, h.at + interval '3 hours', true FROM house h, unnest($6::uuid[], ARRAY['first', 'second']) p(id, place)),
         d AS (INSERT INTO site_record (id, visit_id, state, opened_at, recorded_at) SELECT record, visit, 'open', at, at FROM house),
         k AS (INSERT INTO site_package (id, record_id, number, body, sha256, issued_at, recorded_at) SELECT package, record, 1, '{}', repeat('a', 64), at, at FROM house),
         place AS (SELECT h.record, h.package, h.at, gen_random_uuid() AS item, n FROM house h, generate_series(1, h.times) n),
         i AS (INSERT INTO record_item (id, record_id, kind, label, recorded_at) SELECT item, record, 'panel', 'Panel ' || n, at FROM place)
       INSERT INTO package_step (id, package_id, step_key, revision_id, item_id, position, partner_check) SELECT gen_random_uuid(), package, $4, $5::uuid, item, n, false FROM place`,
      ...[...given, key, revisionId, [CAST.anna.id, CAST.ben.id]],
    );
  });
}

/** So many callbacks about a job, each traced to the step. */
type Failure = { key?: string; kind?: string; waits?: boolean };
async function failed(
  { jobId, at }: Omit<House, 'times'>,
  count: number,
  { key = STEP, kind = 'missed', waits = false }: Failure = {},
): Promise<void> {
  const revisionId = await revisionOf(key);
  await api.database.transaction(async (tx) => {
    const textId = await keepText(tx, randomUUID(), 'The cover was not taken off.', at);
    const [{ id: actorId }] = (await tx.rows<{ id: string }>(
      "SELECT person_id::text AS id FROM person_role WHERE role = 'owner' LIMIT 1",
    )) as [{ id: string }];
    await execute(
      tx,
      `WITH came AS (INSERT INTO callback (id, number, job_id, speaker, kind, state, system, place, remedy_sought, received_at, binding, text_id, recorded_at)
           SELECT gen_random_uuid(), coalesce((SELECT max(number) FROM callback), 0) + n, $1::uuid, 'client', $9, 'received', 'electrical', 'basement', 'a look', $2::timestamptz, false, $3::uuid, $2::timestamptz FROM generate_series(1, $4::int) n RETURNING id),
         told AS (INSERT INTO callback_event (id, callback_id, seq, kind, state, details, happened_at, recorded_at, actor_id)
           SELECT gen_random_uuid(), id, 1, 'received', 'received', jsonb_build_object('jobId', $1::text, 'kind', $9::text), $2::timestamptz, $2::timestamptz, $5::uuid FROM came)
       INSERT INTO conclusion (id, callback_id, cause, step_key, revision_id, text_id, actor_id, needs_confirmation, happened_at, recorded_at)
         SELECT gen_random_uuid(), id, 'skipped', $6, $7::uuid, $3::uuid, $5::uuid, $8::boolean, $2::timestamptz, $2::timestamptz FROM came`,
      ...[jobId, new Date(at.getTime() + 20 * 86_400_000).toISOString(), textId, count, actorId, key, revisionId, waits, kind],
    );
  });
}

beforeAll(async () => {
  like = (await siteJob(api, { startsAt: new Date('2027-01-05T15:00:00Z') })).jobId;
  jobs.push(
    ...computers.counts.map((_, at) => ({ jobId: randomUUID(), at: new Date(Date.UTC(2024, at, 10, 15)), times: computers.exposure })),
  );
  await inspected(STEP, like, jobs);
  for (const [at, count] of computers.counts.entries()) await failed(jobs[at]!, count);
  api.clock.now = new Date('2026-06-15T15:00:00Z');
});

describe('the page of a step', () => {
  it(`draws the chart of ${computers.source} (${computers.status})`, async () => {
    const { status, body } = await step();
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body.chart).toMatchObject({ ok: true, kind: 'months', goodSide: 'below', marks: [] });
    const points = body.chart.points.filter(({ value }: { value: number | null }) => value !== null);
    expect(points.map(({ value }: { value: number }) => value)).toEqual(computers.values.map((value) => expect.closeTo(value, 9)));
    const limits = {
      center: expect.closeTo(computers.center, 9),
      lower: expect.closeTo(computers.lower, 9),
      upper: expect.closeTo(computers.upper, 9),
    };
    for (const point of points) expect(point).toMatchObject({ ...limits, signals: [] });
    expect(body).toMatchObject({ times: 100, jobs: 20, failures: 193, nearMisses: 0, waiting: 0, callbacks: { length: 50 } });
    expect(body.sentence).toMatch(/^It applied 100 times on 20 jobs; 193 callbacks were traced to it/);
    expect(body.months.slice(0, 20).map(({ failures }: { failures: number }) => failures)).toEqual(computers.counts);
    expect(body.months.at(-1)).toMatchObject({ month: '2026-06', times: 0 });
    expect(body.text.now).toMatchObject([{ key: STEP }]);
    expect(body.text.changes).toHaveLength(1);
  });
  it.each(['as they come in', 'after the night'])('says the same as the list of all steps, by months and system, %s', async (when) => {
    if (when === 'after the night') await rebuildFigures({ database: api.database, clock: () => api.clock.now }, true);
    const list = async (query = '') => (await api.send('lead', 'GET', `/api/liability/steps${query}`)).body;
    const all = await list();
    expect(all.steps[0]).toMatchObject({ stepKey: STEP, times: 100, jobs: 20, failures: 193, incurredCents: 0, skipped: null });
    expect(all.firstMonth).toBe('2024-01');
    expect(all.failuresSentence).toMatch(/^All of the failures are traced to one step/);
    expect((await list('?from=2024-02&until=2024-03')).steps[0]).toMatchObject({ times: 10, failures: 20 });
    expect((await list('?from=2023-01&until=2023-12')).steps).toEqual([]);
    expect((await list('?system=no+such+system')).steps).toEqual([]);
    expect((await list(`?system=${encodeURIComponent(all.steps[0].system)}`)).steps).toHaveLength(1);
  });
  it('counts cost to the cent, near-misses apart, no conclusion that waits, no duplicate, and names nothing that is for the owner alone', async () => {
    const { body } = await step();
    const [first, second] = body.callbacks as { id: string; number: number }[];
    await on(api, 'lead', first!.id, 'reserve', { cents: 12_345, words: 'An electrician' });
    await failed(jobs[3]!, 1, { waits: true });
    await failed(jobs[3]!, 1, { kind: 'near_miss' });
    await api.database.transaction((tx) => execute(tx, 'UPDATE callback SET owner_only = true WHERE id = $1::uuid', second!.id));
    const after = (await step(STEP, 'lead')).body;
    expect(after).toMatchObject({ failures: 193, nearMisses: 1, waiting: 1, unnamed: 1, reservedCents: 12_345, incurredCents: 12_345 });
    expect(after.callbacks.map(({ number }: { number: number }) => number)).not.toContain(second!.number);
    expect(after.nearMissCallbacks).toMatchObject([{ kind: 'near_miss' }]);
    expect((await step()).body.unnamed).toBe(0);
    const { steps } = (await api.send('owner', 'GET', '/api/liability/steps')).body;
    expect(steps[0]).toMatchObject({ failures: 193, nearMisses: 1, reservedCents: 12_345, incurredCents: 12_345 });
  });
});

describe('bad input', () => {
  it('a step that never applied, one without a failure, one visit, one failure: the right answer, or why there is none', async () => {
    const keys = (await findInForce(api.database.read, api.clock.now)).flatMap(({ steps }) => steps.map(({ key }) => key));
    const unused = keys.find((key) => key !== STEP && key.startsWith('attic'))!;
    const { body } = await step(unused);
    expect(body).toMatchObject({ times: 0, rate: null, skipped: null, months: [], callbacks: [], changes: [] });
    expect(body.sentence).toBe('This step has not applied on any inspection yet, so nothing can be said of it.');
    expect(body.chart).toEqual({ ok: false, sentence: 'Cannot be estimated because the step has not applied on any inspection yet.' });
    const house = { jobId: randomUUID(), at: new Date('2026-06-15T14:00:00Z'), times: 1 };
    await inspected(unused, like, [house]);
    const once = (await step(unused)).body;
    expect(once).toMatchObject({ times: 1, jobs: 1, failures: 0, rate: { rate: 0, upper: expect.closeTo(3.689, 3) } });
    expect(once.sentence).toBe('It applied 1 time on 1 job, and no callback was traced to it; too few times to tell more.');
    expect(once.chart.sentence).toBe('Cannot be estimated because no failure is known, and a chart takes at least 3.');
    await failed(house, 1, { key: unused });
    expect((await step(unused)).body.chart.sentence).toMatch(/only 1 failure is known/);
  });
  it('is told: an unknown step, months in the wrong order, a month that is none, a table that is none; and nobody else reads it', async () => {
    expect(await step('no-such-step')).toMatchObject({ status: 404, body: { code: 'not-found' } });
    for (const query of ['?from=2025-05&until=2025-04', '?from=May', '?from=2025-13'])
      expect((await api.send('owner', 'GET', `/api/liability/steps${query}`)).status, query).toBe(422);
    expect((await api.send('owner', 'GET', `/api/liability/steps/${STEP}/table.csv?table=people`)).status).toBe(422);
    for (const path of ['', '/table.csv?table=steps', `/${STEP}`, `/${STEP}/table.csv?table=months`])
      for (const who of ['office', 'anna'] as const) expect((await api.send(who, 'GET', `/api/liability/steps${path}`)).status).toBe(403);
  });
});

it('every table is there to take away, with the same numbers', async () => {
  const csv = async (path: string): Promise<string[]> => {
    const answer = await api.send('owner', 'GET', `/api/liability/steps${path}`);
    expect(answer.headers['content-type'], path).toMatch(/^text\/csv/);
    return String(answer.body).trim().split('\r\n');
  };
  const steps = await csv('/table.csv?table=steps');
  expect(steps[0]).toMatch(/^step,step key,procedure,system,times applied,jobs,failures,near-misses/);
  expect(steps[1]).toMatch(/,panel-interior,.*,100,20,193,1,/);
  const months = await csv(`/${STEP}/table.csv?table=months`);
  expect(months[1]).toBe('2024-01,5,1,10,0,0,0,0,0,1: 5');
  expect((await csv(`/${STEP}/table.csv?table=revisions`))[1]).toMatch(/^1,[^,]+,100,20,193,1,1\.93,/);
  expect((await csv(`/${STEP}/table.csv?table=chart`))[1]).toMatch(/^Jan 2024,10 in 5,2,1\.9/);
  // the page has the newest 50 of 193
  expect((await csv(`/${STEP}/table.csv?table=callbacks`)).length).toBe(195);
});
