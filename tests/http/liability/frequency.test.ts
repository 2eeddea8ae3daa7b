// How often callbacks come, and people beside what was to be expected: over HTTP, from acts and from sums laid down by hand.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { monthsBetween, shiftMonth } from '@backsight/domain/liability/frequency/months';
import { CUMULATE } from '@backsight/store/liability/spans';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob, type SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { on, received } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const read = async (who: CastName, path: string) => await api.send(who, 'GET', `/api/liability/${path}`);
const page = async (query = '') => {
  const answer = await read('lead', `frequency${query}`);
  expect(answer.status, JSON.stringify(answer.body)).toBe(200);
  return answer.body;
};
const rows = (body: { groups: { by: string; rows: unknown[] }[] }, by: string) =>
  body.groups.find((table) => table.by === by)!.rows as Record<string, unknown>[];
const sql = (text: string) => api.database.transaction((tx) => tx.rows(text));

async function inspected(day: string): Promise<SiteJob> {
  const job = await siteJob(api, { startsAt: new Date(`${day}T15:00:00Z`) });
  await sql(`UPDATE visit SET state = 'done' WHERE id = '${job.visitId}' RETURNING 1`);
  return job;
}

describe('of a firm with little to count', () => {
  it('says why nothing can be estimated where nothing was inspected', async () => {
    const body = await page();
    expect(body.chart).toMatchObject({ ok: false, sentence: 'Cannot be estimated because nothing was inspected in these months.' });
    expect(body).toMatchObject({ compared: body.chart.sentence, comparisons: 0, groups: [], young: '', until: '2026-05' });
    const people = (await read('owner', 'people')).body;
    expect(people.pairs).toMatchObject({ units: [], bands: [], sentence: expect.stringContaining('nobody here has 5 expected callbacks') });
    expect((await read('anna', 'people/own')).body.own).toMatchObject({ ok: false, code: 'no_exposure' });
  });
  it('says of one job what one job allows', async () => {
    await inspected('2025-01-14');
    const body = await page();
    expect(body.from).toBe('2025-01');
    expect(body.chart).toMatchObject({ ok: false, code: 'too_few' });
    expect(rows(body, 'foundation')).toMatchObject([
      { name: 'Basement homes', count: 0, exposure: 1, rate: 0, lower: 0, shrunk: null, others: null, p: null, signal: null },
    ]);
    expect((await read('anna', 'people/own')).body.own).toMatchObject({ state: 'too_few', jobs: 1 });
  });
  it('counts the jobs from one callback to the next where they are rare, without near-misses, questions and duplicates', async () => {
    const days = [
      '2025-01-20',
      '2025-01-27',
      '2025-02-03',
      '2025-02-10',
      '2025-02-17',
      '2025-03-03',
      '2026-04-07',
      '2026-04-08',
      '2026-04-09',
    ];
    const jobs: SiteJob[] = [];
    for (const day of days) jobs.push(await inspected(day));
    const first = await received(api, jobs[0]!);
    for (const at of [3, 4, 8]) await received(api, jobs[at]!);
    await received(api, jobs[1]!, { kind: 'near_miss', partyId: undefined });
    await received(api, jobs[1]!, { kind: 'question' });
    const twin = await received(api, jobs[0]!);
    const link = await on(api, 'office', twin, 'link', { link: { kind: 'duplicate', to: first }, words: 'The same freezer' });
    expect(link.status).toBeLessThan(300);
    const { chart, months } = await page();
    expect(chart).toMatchObject({ ok: true, kind: 'g', goodSide: 'above' });
    expect(chart.points.map((p: { label: string; value: number; young: boolean }) => [p.label, p.value, p.young])).toEqual([
      ['2025-02-10', 2, false],
      ['2025-02-17', 0, false],
      ['2026-04-09', 3, true],
    ]);
    // Of the settled ways, 2 and 0: mean 1, center 0.693 of it, upper limit 1 + 3 sqrt(2).
    expect(chart.points[0].center).toBeCloseTo(0.693, 9);
    expect(chart.points[0].upper).toBeCloseTo(1 + 3 * Math.SQRT2, 9);
    expect(months.find(({ month }: { month: string }) => month === '2025-01')).toMatchObject({ jobs: 3, callbacks: 1, state: 'settled' });
    expect(rows(await page(), 'pair')).toEqual([]);
    expect((await page()).hiddenPairs).toEqual(['Anna Inspector and Ben Inspector']);
  });
});

const [AB, CD, LL] = [
  [CAST.anna, CAST.ben],
  [CAST.cora, CAST.dan],
  [CAST.lead, CAST.lead2],
].map((pair) =>
  pair
    .map(({ id }) => id)
    .sort()
    .join('+'),
) as [string, string, string];
const MONTHS = monthsBetween('2023-07', '2026-05');
const BUSY = '2024-05';
/** Figures of 35 months: 40 jobs and 3 callbacks each, one known in the next month and two in the fourth; twelve more in one month. */
function figureRows(): string[] {
  const found: string[] = [];
  const put = (grouping: string, measure: string, value: string, origin: string, later: number, amount: number): void => {
    const known = shiftMonth(origin, later);
    if (known <= '2026-06' && amount > 0) found.push(`('${grouping}', '${measure}', '${value}', '${origin}-01', '${known}-01', ${amount})`);
  };
  for (const month of MONTHS) {
    const more = month === BUSY ? 1 : 0;
    const parts: [string, string, number, number, number][] = [
      ['all', '', 40, 1 + 12 * more, 2],
      ['foundation', 'crawl_space', 10, 8 * more, 2],
      ['foundation', 'basement', 30, 1 + 4 * more, 0],
      ['age', '30-59', 40, 1 + 12 * more, 2],
      ['service', 'inspection', 40, 1 + 12 * more, 2],
      ['rain', 'wet', 15, 1, 0],
      ['rain', 'dry', 25, 12 * more, 2],
      ['system', 'electrical', 0, 1 + 12 * more, 2],
      ['pair', AB, 30, 8 * more, 2],
      ['pair', CD, 9, 1 + 4 * more, 0],
      ['pair', LL, 1, 0, 0],
      ['pair_mix', `${AB}|crawl_space|30-59`, 10, 8 * more, 2],
      ['pair_mix', `${AB}|basement|30-59`, 20, 0, 0],
      ['pair_mix', `${CD}|basement|30-59`, 9, 1 + 4 * more, 0],
      ['pair_mix', `${LL}|basement|30-59`, 1, 0, 0],
    ];
    for (const [grouping, value, jobs, soon, late] of parts) {
      put(grouping, 'jobs', value, month, 0, jobs);
      put(grouping, 'callbacks', value, month, 1, soon);
      put(grouping, 'callbacks', value, month, 4, late);
    }
    put('step', 'failures', 'ground-fault-trip-reset', month, 4, 1);
  }
  put('all', 'reserved', '', BUSY, 2, 90_000);
  put('all', 'paid', '', BUSY, 3, 20_000);
  put('all', 'recovered', '', BUSY, 4, 10_000);
  return found;
}

describe('of a firm with three years behind it', () => {
  it('draws the months, marks what is still coming in, and never praises it', async () => {
    api.clock.now = new Date('2026-06-15T15:00:00Z');
    await sql(`UPDATE figure_state SET until = '2026-06-15T05:00Z', steps_until = '2026-06-15T05:00Z' RETURNING 1`);
    await sql(`INSERT INTO figure (split, measure, value, origin, known, amount) VALUES ${figureRows().join(', ')} RETURNING 1`);
    await sql(`WITH every AS (SELECT * FROM figure), ${CUMULATE} RETURNING 1`);
    const [other] = await api.database.read.rows<{ key: string }>(
      "SELECT key FROM step_key WHERE derived_from IS NULL AND key <> 'ground-fault-trip-reset' ORDER BY key LIMIT 1",
    );
    const steps = MONTHS.flatMap((month) =>
      ['ground-fault-trip-reset', other!.key].map((key) => `('${key}', '${randomUUID()}', '${month}-01', 50, 40, 0, 0, 0, 0, 0)`),
    );
    await sql(
      `INSERT INTO step_figure (step_key, revision_id, month, times, jobs, judged, met, skipped, could_not, differed) VALUES ${steps.join(', ')} RETURNING 1`,
    );
    const { chart, months, young } = await page();
    // Settled are July 2023 to January 2026: 31 months of 40 jobs, 93 + 12 callbacks.
    const at = (month: string) => months.findIndex((one: { month: string }) => one.month === month);
    expect([months[at('2026-01')].state, months[at('2026-02')].state, months[at('2026-06')].state]).toEqual([
      'settled',
      'young',
      'running',
    ]);
    expect(months[at('2026-01')].share).toBe(1);
    // 43 of 105 are known from the second to the fourth month; half way from there to all of them in the middle of the fifth.
    expect(months[at('2026-02')].share).toBeCloseTo((43 / 105 + 1) / 2, 2);
    expect(young).toMatch(/^Still coming in from Feb 2026 on: of that month 70 % /);
    expect(chart).toMatchObject({
      ok: true,
      kind: 'u',
      sentence: expect.stringMatching(/3\.4 callbacks on average.*1\.4 times as much.*limits are plain/),
    });
    const center = (105 / (31 * 40)) * 100;
    expect(chart.points[at(BUSY)]).toMatchObject({ label: 'May 2024', value: 37.5, signals: [{ rule: 'beyond_limits', side: 'above' }] });
    expect(chart.points[at(BUSY)].center).toBeCloseTo(center, 9);
    expect(chart.points[at(BUSY)].upper).toBeCloseTo(center + 3 * Math.sqrt(center / 0.4), 9);
    expect(chart.points[at('2026-01')].signals).toMatchObject([{ rule: 'run', side: 'below' }]);
    expect(chart.points.slice(at('2026-02')).every((p: { young: boolean; signals: unknown[] }) => p.young && p.signals.length === 0)).toBe(
      true,
    );
  });
  it('holds each month beside the same month a year earlier, at the same age', async () => {
    const { months } = await page();
    const march = months.find(({ month }: { month: string }) => month === '2026-03');
    expect(march).toMatchObject({ jobs: 40, callbacks: 1, earlier: { month: '2025-03', jobs: 40, callbacks: 3, callbacksAtSameAge: 1 } });
    expect(months.find(({ month }: { month: string }) => month === BUSY)).toMatchObject({ callbacks: 15, incurredCents: 100_000 });
  });
  it('holds groups against the rest, corrected for everything at once', async () => {
    const body = await page();
    expect(body.compared).toBe('Compared are 1,240 jobs with 105 callbacks, inspected Jul 2023 to Jan 2026.');
    const [basement, crawl] = rows(body, 'foundation');
    expect(crawl).toMatchObject({ name: 'Crawl space homes', count: 70, exposure: 310, rate: 70 / 310, others: 35 / 930, signal: 'more' });
    expect(crawl!['sentence']).toMatch(
      /^Crawl space homes: 22\.6 callbacks in 100 jobs, 95 % 17\.6 to 28\.5; others 3\.8; more than chance explains/,
    );
    expect(basement).toMatchObject({ ratio: expect.closeTo(35 / 930 / (70 / 310), 9), signal: 'fewer' });
    // 90 % of the weight of so many callbacks is their own: a little below the raw rate.
    expect(crawl!['shrunk']).toBeLessThan(70 / 310);
    expect(crawl!['shrunk']).toBeGreaterThan(0.2);
    const p = body.groups.flatMap((table: { rows: { p: number | null }[] }) => table.rows.flatMap((row) => row.p ?? []));
    expect(body.comparisons).toBe(p.length);
    expect(rows(body, 'age')).toMatchObject([{ others: null, p: null, adjusted: null, signal: null }]);
    expect(
      rows(body, 'step')
        .map(({ count, exposure }) => [count, exposure])
        .sort(),
    ).toEqual([
      [0, 1550],
      [31, 1550],
    ]);
    expect(rows(body, 'season').map((row) => row['exposure'])).toEqual([320, 240, 320, 360]);
    expect(rows(body, 'pair').map(({ name, count }) => [name, count])).toEqual([
      ['Anna Inspector and Ben Inspector', 70],
      ['Cora Inspector and Dan Inspector', 35],
    ]);
    expect(body.hiddenPairs).toEqual(['Lena Lead and Luis Lead']);
    expect(body.signals).toContainEqual({
      by: 'foundation',
      value: 'crawl_space',
      sentence: expect.stringMatching(
        /^Between 17\.6 and 28\.5 callbacks in 100 jobs \(95 %\): Crawl space homes\. 22\.6 were counted, against 3\.8 of others: more than chance/,
      ),
    });
    expect(await page('?by=month')).toEqual({ ...body, groups: [] });
    const one = await page('?by=foundation');
    expect(one.signals).toEqual(body.signals);
    expect(one.groups.map(({ by }: { by: string }) => by)).toEqual(['foundation']);
    expect(rows(one, 'foundation')[1]).toEqual(crawl);
  });
  it.each([
    ['?from=2030-01', 200, { compared: 'Cannot be estimated because nothing was inspected in these months.', months: [] }],
    ['?from=2026-05&until=2031-01', 200, { until: '2026-06' }],
    ['?from=2019-01&until=2019-12', 200, { comparisons: 0 }],
    ['?by=moon', 422, {}],
    ['?from=2026-13', 422, { errors: [{ message: 'Give a month of this century as YYYY-MM.' }] }],
    ['?from=2026-05&until=2026-04', 422, { errors: [{ message: 'The first month must not come after the last.' }] }],
    ['?from=2001-01&until=2026-04', 422, { errors: [{ message: 'Ask for at most 20 years at once.' }] }],
  ])('answers %s with %i', async (query, status, found) => {
    const answer = await read('owner', `frequency${query}`);
    expect(answer.status).toBe(status);
    expect(answer.body).toMatchObject(found);
  });
  it('saves each table', async () => {
    const months = await read('owner', 'frequency/table.csv?table=month');
    expect(months.headers['content-type']).toContain('text/csv');
    expect(months.body).toContain('\r\n2024-05,40,15,37.5,1000.00,25.00,settled,1,');
    expect((await read('owner', 'frequency/table.csv?table=pair')).body).toContain('Lena Lead and Luis Lead,too few,');
    expect((await read('owner', 'people/table.csv?table=people')).body).toMatch(/Anna Inspector,930,70,93\.33\d*,0\.75/);
  });
});

describe('people', () => {
  it('stand by name in a funnel against what their houses led to expect, silent below five', async () => {
    const { pairs, people } = (await read('owner', 'people')).body;
    // Basements: 35 callbacks in 930 jobs; crawl spaces: 70 in 310, all of one pair.
    expect(pairs.units.map((one: { name: string; observed?: number; state: string }) => [one.name, one.state, one.observed])).toEqual([
      ['Anna Inspector and Ben Inspector', 'shown', 70],
      ['Cora Inspector and Dan Inspector', 'shown', 35],
      ['Lena Lead and Luis Lead', 'too_few', undefined],
    ]);
    expect(pairs.units[0].expected).toBeCloseTo(70 + (35 / 930) * 620, 9);
    expect(pairs.units[1].expected).toBeCloseTo((35 / 930) * 279, 9);
    expect(Object.keys(pairs.units[2]).sort()).toEqual(['jobs', 'name', 'state', 'unit']);
    expect(pairs.sentence).toContain('so the limits are widened');
    expect(people.units.map(({ name }: { name: string }) => name)).toEqual([
      'Anna Inspector',
      'Ben Inspector',
      'Cora Inspector',
      'Dan Inspector',
      'Lena Lead',
      'Luis Lead',
    ]);
    expect(people.units[2]).toMatchObject({ observed: 35, jobs: 279 });
  });
  it('see only their own figure; the office sees none', async () => {
    const answer = await read('cora', 'people/own');
    expect(answer.body.own).toMatchObject({ name: 'Cora Inspector', observed: 35, state: 'shown' });
    const text = JSON.stringify(answer.body);
    for (const { id, name } of [CAST.anna, CAST.ben, CAST.dan, CAST.lead, CAST.lead2]) {
      expect(text).not.toContain(id);
      expect(text).not.toContain(name);
    }
    expect(text).not.toContain('93.3');
    expect((await read('lead', 'people/own')).body.own).toMatchObject({ name: 'Lena Lead', state: 'too_few' });
    const routes = ['people', 'people/table.csv?table=people', 'frequency', 'frequency/table.csv?table=pair'];
    for (const path of routes) for (const who of ['office', 'anna'] as const) expect((await read(who, path)).status, path).toBe(403);
    expect((await read('office', 'people/own')).status).toBe(403);
  });
});
