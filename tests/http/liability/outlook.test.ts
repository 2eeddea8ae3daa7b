// Outlooks over HTTP: too little data is told, nothing is kept unless asked, and the same seed and instant give the same again.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { copyIn } from '@backsight/store/copy';
import type { CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { reconcileOutlook } from '../../support/reconcileEstimates.ts';
import { withStarter } from '../../support/starter.ts';
import { received, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
let first: Visited;
const read = (query = '', who: CastName = 'owner') => api.send(who, 'GET', `/api/liability/outlook${query}`);

it('is the owner’s alone', async () => {
  for (const who of ['lead', 'office', 'anna'] as const) {
    expect((await read('', who)).status).toBe(403);
    expect((await api.send(who, 'GET', '/api/liability/outlooks')).status).toBe(403);
  }
});
it('says what it cannot tell of a firm with one job, and shows no number in its place', async () => {
  api.clock.now = new Date('2026-04-28T15:00:00Z');
  first = await visited(api);
  api.clock.now = new Date('2026-05-12T15:00:00Z');
  const { status, body } = await read();
  expect(status, JSON.stringify(body)).toBe(200);
  expect(body).toMatchObject({ figures: [], quarters: [], from: '2026-05-11', until: '2028-05-08', seed: 1 });
  expect(body.because).toEqual([
    'Nothing can be estimated because only 1 jobs were inspected in the 52 weeks before; 30 are the fewest to go by.',
  ]);
});
it.each([
  ['?feePercent=abc', 422, 'feePercent'],
  ['?feePercent=900', 422, 'feePercent'],
  ['?seed=-1', 422, 'seed'],
  ['?fewerLeast=50&fewerMost=20', 422, 'fewerMost'],
  ['?stepMinutes=5', 422, 'stepKey'],
  ['?stepKey=nothing-of-the-kind', 404, undefined],
  ['?asOf=2031-01-01T00:00:00Z', 422, 'asOf'],
])('refuses %s', async (query, status, field) => {
  const answer = await read(query);
  expect(answer.status, JSON.stringify(answer.body)).toBe(status);
  if (field) expect(JSON.stringify(answer.body)).toContain(field);
});
it('keeps an estimate only on request, once by a name, figured by the service; and removes it', async () => {
  const { asOf, scenario } = (await read('?feePercent=5')).body;
  expect((await api.send('owner', 'GET', '/api/liability/outlooks')).body.items).toEqual([]);
  const keep = (name: string, more = {}) =>
    api.send('owner', 'POST', '/api/liability/outlooks', {
      once: true,
      body: { id: randomUUID(), name, ...scenario, seed: 4_294_967_295, asOf, ...more },
    });
  expect((await keep('Fees in spring', { result: {} })).status).toBe(422);
  const kept = await keep('Fees in spring');
  expect(kept.status, JSON.stringify(kept.body)).toBe(201);
  expect(await keep('Fees in spring')).toMatchObject({ status: 409, body: { code: 'outlook-name-taken' } });
  const { items } = (await api.send('owner', 'GET', '/api/liability/outlooks')).body;
  expect(items).toMatchObject([
    { name: 'Fees in spring', seed: 4_294_967_295, asOf, scenario, result: { because: [expect.stringContaining('only 1 jobs')] } },
  ]);
  const remove = () => api.send('owner', 'DELETE', `/api/liability/outlooks/${items[0].id}`);
  expect((await api.send('lead', 'DELETE', `/api/liability/outlooks/${items[0].id}`)).status).toBe(403);
  expect((await remove()).status).toBe(200);
  expect((await remove()).status).toBe(404);
  const trail = await api.database.read.rows(`SELECT operation FROM audit_row WHERE thing_kind = 'outlook' ORDER BY id`);
  expect(trail).toEqual([{ operation: 'liability.keep-outlook' }, { operation: 'liability.remove-outlook' }]);
});

type Copies = { table: string; of: string; times: number; change: string };
/** Copies of rows with other columns, numbered by `n` from 1; no act makes so much at once, so the checks of acts stand still. */
async function copies(all: readonly Copies[]): Promise<void> {
  const columns = await api.database.read.rows<{ table: string; names: string[] }>(
    `SELECT table_name AS table, array_agg(quote_ident(column_name)) AS names FROM information_schema.columns WHERE table_schema = 'public' AND is_generated = 'NEVER' GROUP BY 1`,
  );
  await copyIn(api.url, async ({ run }) => {
    await run('SET LOCAL session_replication_role = replica');
    for (const { table, of, times, change } of all) {
      const { names } = columns.find((one) => one.table === table)!;
      await run(
        `INSERT INTO ${table} (${names.join(', ')}) SELECT ${names.map((name) => `(r).${name}`).join(', ')} FROM (SELECT jsonb_populate_record(NULL::${table}, to_jsonb(t) || jsonb_build_object(${change})) AS r
         FROM ${table} t, generate_series(1, ${times}) AS n WHERE ${of}) copied`,
      );
    }
  });
}
/** The id of the copy number n. */
const nth = (key: string, of: string): string => `'${key}', md5('${of}' || n)::uuid`;
/** Two or three a week, from August of the year before on. */
const earlier = (...columns: string[]): string =>
  columns.map((column) => `'${column}', ${column} - interval '280 days' + n * interval '2 days'`).join(', ');
const MEASURES = ['jobs', 'income', 'callbacks', 'cost', 'byFirm', 'byInsurer', 'left', 'hours'];

/** A hundred and twenty more jobs like the first, nine months of them behind us, and twenty callbacks about them. */
async function aYearOfJobs(): Promise<void> {
  const called = await received(api, first);
  const at = api.clock.now;
  const fee = {
    id: randomUUID(),
    jobId: first.jobId,
    position: 0,
    ruleKey: 'base',
    label: 'Inspection',
    reason: 'x',
    cents: 47_500,
    recordedAt: at,
  };
  await api.database.transaction(({ db }) => db.jobFeeLine.create({ data: fee }));
  await copies([
    { table: 'job', of: `id = '${first.jobId}'`, times: 120, change: `${nth('id', 'job')}, 'number', 5000 + n` },
    {
      table: 'job_fee_line',
      of: `job_id = '${first.jobId}'`,
      times: 120,
      change: `'id', md5(t.id::text || n)::uuid, ${nth('job_id', 'job')}`,
    },
    {
      table: 'visit',
      of: `id = '${first.visitId}'`,
      times: 120,
      change: `${nth('id', 'visit')}, ${nth('job_id', 'job')}, ${earlier('starts_at', 'ends_at')}`,
    },
    {
      table: 'site_record',
      of: `id = '${first.recordId}'`,
      times: 120,
      change: `${nth('id', 'record')}, ${nth('visit_id', 'visit')}, ${earlier('opened_at', 'recorded_at')}`,
    },
    {
      table: 'callback',
      of: `id = '${called}'`,
      times: 20,
      change: `${nth('id', 'callback')}, 'number', 700 + n, ${nth('job_id', 'job')}, ${earlier('received_at', 'recorded_at')}`,
    },
    {
      table: 'callback_event',
      of: `callback_id = '${called}' AND kind = 'received'`,
      times: 20,
      change: `${nth('id', 'event')}, ${nth('callback_id', 'callback')}, ${earlier('happened_at', 'recorded_at')}, 'details', t.details || jsonb_build_object(${nth('jobId', 'job')})`,
    },
  ]);
}

it('with a year of jobs gives every figure with its range, the same for the same seed, and only the difference that the change makes', async () => {
  await aYearOfJobs();
  const plain = (await read()).body;
  expect(plain.because, JSON.stringify(plain.because)).toEqual([]);
  expect(plain.figures.map(({ measure }: { measure: string }) => measure)).toEqual(MEASURES);
  let held = 0;
  await reconcileOutlook(api.database.read, api.clock.now, (shown, found, what) => {
    expect(shown, what).toEqual(found);
    held += 1;
  });
  expect(held).toBe(1 + MEASURES.length);
  expect((await read()).body).toEqual(plain);
  expect((await read('?seed=2')).body.figures).not.toEqual(plain.figures);
  const { figures } = (await read('?feePercent=10&jobsPercent=0')).body;
  for (const { measure, now, changed, difference } of figures) {
    expect(now, measure).toEqual(plain.figures.find((one: { measure: string }) => one.measure === measure).now);
    expect(now.lower <= now.mean && now.mean <= now.upper, measure).toBe(true);
    if (measure !== 'income' && measure !== 'left') expect(difference, measure).toEqual({ mean: 0, lower: 0, upper: 0 });
    else expect(changed.mean - now.mean, measure).toBeCloseTo(difference.mean, 3);
  }
  const income = figures.find((one: { measure: string }) => one.measure === 'income');
  expect(income.difference.mean / income.now.mean).toBeCloseTo(0.1, 6);
  expect((await api.send('owner', 'GET', '/api/liability/outlooks')).body.items).toEqual([]);
});
