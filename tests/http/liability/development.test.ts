// Development of callbacks and their cost, and the sums that it reads: as of any past day they are what was known on it, however they were made.
import { randomUUID } from 'node:crypto';
import { DateTime } from 'luxon';
import { expect, it } from 'vitest';
import { readCsv } from '@backsight/documents/csvRead';
import { figures, stepFigures, type Figure } from '@backsight/store/liability/figures';
import { DATED, GROUPINGS } from '@backsight/store/liability/groupings';
import { weeksOfJobs } from '@backsight/store/liability/outlook';
import { sumsByValue } from '@backsight/store/liability/spans';
import { rebuildFigures, rebuildFiguresAtNight } from '@backsight/usecases/liability/figures';
import { readOutstanding } from '@backsight/usecases/liability/development/outstanding';
import { testApi, type Answer } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { start } from '../sitework/support.ts';
import { concluded, on, proposed, received, remedy, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
/** Every act is sent once: that it may come twice is tested where it belongs. */
const once: typeof api = Object.create(api, {
  send: { value: ((who, method, path, more) => api.send(who, method, path, { ...more, once: true })) satisfies typeof api.send },
});
type Judge = 'owner' | 'lead';
const read = (who: Judge | 'office' | 'anna', query = ''): Promise<Answer> => api.send(who, 'GET', `/api/liability/development${query}`);
const ASKED: readonly (readonly [Judge, string])[] = [
  ['owner', 'by=month&of=incurred'],
  ['owner', 'by=quarter&of=callbacks&method=chain_ladder'],
  ['lead', 'by=month&of=paid'],
];
const at = (iso: string): Date => (api.clock.now = new Date(iso));
const ok = (answer: Answer): Answer => {
  expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
  return answer;
};
const night = () => ({ database: api.database, clock: () => api.clock.now });
const ALL = ['jobs', 'fees', 'callbacks', 'failures', 'paid', 'reserved', 'recovered'] as const;
const sums = (asOf?: Date): Promise<Figure[]> => figures(api.database.read, { grouping: 'all', measures: ALL, ...(asOf ? { asOf } : {}) });
const total = (rows: readonly Figure[], measure: string): number =>
  rows.reduce((sum, row) => sum + (row.measure === measure ? row.amount : 0), 0);
/** Every sum that is kept or counted, of every grouping. */
const everything = async () => {
  const dated: Record<string, Figure[]> = {};
  for (const grouping of DATED) dated[grouping] = await figures(api.database.read, { grouping, measures: ALL });
  const spans = await sumsByValue(api.database.read, { from: '2020-01', until: '2039-12', groupings: GROUPINGS, measures: ALL });
  const inOrder = spans.map((row) => JSON.stringify(row)).sort();
  const weeks = await weeksOfJobs(
    api.database.read,
    '2025-01-06',
    DateTime.fromJSDate(api.clock.now, { zone: 'America/Chicago' }).startOf('week').toISODate()!,
  );
  return { dated, spans: inOrder, weeks, steps: await stepFigures(api.database.read) };
};
/** Sums as they were at an instant. */
const summed = new Map<string, Figure[]>();
/** Pages as they were on a day, by day, person and question. */
const seen = new Map<string, unknown>();
const page = async (who: Judge, query: string): Promise<unknown> => {
  const { today: _, ...body } = ok(await read(who, `?${query}`)).body;
  return body;
};
async function remember(iso: string): Promise<void> {
  at(iso);
  summed.set(iso, await sums());
  for (const [who, query] of ASKED) seen.set(`${who} ${iso.slice(0, 10)} ${query}`, await page(who, query));
}
const latest = async (of: string, who: Judge = 'owner'): Promise<[string, number][]> =>
  ok(await read(who, `?by=month&of=${of}`)).body.origins.map((origin: { name: string; latest: number }) => [origin.name, origin.latest]);
const pay = async (id: string, cents: number) =>
  ok(
    await remedy(once, 'owner', await proposed(once, 'owner', id, cents), 'payment', { paidOn: api.clock.now.toISOString().slice(0, 10) }),
  );
let first: Visited;

it('says of an empty firm and of one job why nothing can be estimated, and is for owner and lead inspector alone', async () => {
  at('2026-04-28T15:00:00Z');
  const empty = ok(await read('owner')).body;
  expect(empty).toMatchObject({ by: 'quarter', of: 'incurred', asOf: '2026-04-28', wholeUntil: '2026-03-31', origins: [], folded: null });
  expect(empty.estimate).toMatchObject({ ok: false, sentence: 'Cannot be estimated because nothing was inspected by then.' });
  expect(empty.outstanding).toMatchObject({ ok: false });
  first = await visited(once);
  const one = ok(await read('lead', '?by=month')).body;
  expect(one.origins).toMatchObject([{ name: 'Apr 2026', jobs: 1, cells: [0], whole: 0, outlook: null }]);
  expect(one.estimate).toMatchObject({ ok: false, longer: { to: 'quarter', sentence: 'By month it is too thin; look by quarter.' } });
  for (const who of ['office', 'anna'] as const) expect((await read(who)).status).toBe(403);
  expect((await read('owner', '?by=week')).status).toBe(422);
  expect((await read('owner', '?expected=-1')).status).toBe(422);
  expect(await read('owner', '?asOf=2026-04-29')).toMatchObject({
    status: 422,
    body: { code: 'in-the-future', title: '2026-04-29 has not come yet.' },
  });
});

it('follows a callback that is received, linked, undone, moved, set aside anew, paid, taken back', async () => {
  const other = await siteJob(once, { startsAt: at('2026-05-06T15:00:00Z') });
  await start(once, other.visitId, 'anna');
  at('2026-05-12T15:00:00Z');
  const id = await concluded(once, first);
  ok(await on(once, 'lead', id, 'reserve', { cents: 40_000, words: 'Food' }));
  await received(once, first, { kind: 'near_miss', partyId: undefined });
  await received(once, first, { kind: 'question' });
  await remember('2026-05-13T12:00:00Z');
  const [of] = summed.values();
  expect(['jobs', 'callbacks', 'failures', 'reserved', 'paid'].map((one) => total(of!, one))).toEqual([2, 1, 1, 40_000, 0]);
  expect(of!.find(({ measure }) => measure === 'callbacks')).toMatchObject({ origin: '2026-04', known: '2026-05' });
  at('2026-05-20T15:00:00Z');
  const twin = await received(once, first);
  ok(await on(once, 'office', twin, 'link', { link: { kind: 'duplicate', to: id }, words: 'The same freezer' }));
  ok(await on(once, 'lead', id, 'conclusion', { conclusionId: randomUUID(), cause: 'arose_later', words: 'The outage was the utility.' }));
  await remember('2026-05-21T12:00:00Z');
  expect(['callbacks', 'failures'].map((one) => total(summed.get('2026-05-21T12:00:00Z')!, one))).toEqual([1, 0]);
  at('2026-06-02T15:00:00Z');
  ok(await on(once, 'office', twin, 'link/undo', { words: 'Another freezer' }));
  await remember('2026-06-03T12:00:00Z');
  expect(await latest('callbacks')).toEqual([
    ['Apr 2026', 2],
    ['May 2026', 0],
    ['Jun 2026', 0],
  ]);
  at('2026-06-09T15:00:00Z');
  ok(await on(once, 'lead', id, 'reserve', { cents: 15_000, words: 'Less than feared' }));
  ok(await on(once, 'office', twin, 'job', { jobId: other.jobId, words: 'It was the house of May' }));
  ok(await on(once, 'lead', twin, 'reserve', { cents: 7_000, words: 'Its food' }));
  await remember('2026-06-10T12:00:00Z');
  const amounts = async (of: string): Promise<number[]> => (await latest(of)).map(([, amount]) => amount);
  expect([await amounts('callbacks'), await amounts('incurred')]).toEqual([
    [1, 1, 0],
    [15_000, 7_000, 0],
  ]);
  at('2026-07-07T15:00:00Z');
  ok(await on(once, 'owner', id, 'clearance', { kind: 'insurer_consent', words: 'By e-mail of the claim desk' }));
  await pay(id, 12_000);
  const secret = await received(once, first, { ownerOnly: true });
  ok(await on(once, 'owner', secret, 'reserve', { cents: 90_000, words: 'A letter of an attorney' }));
  await remember('2026-07-08T12:00:00Z');
  const [entry] = ok(await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.moneyEntries.filter(
    (one: { kind: string }) => one.kind === 'callback_payment',
  );
  at('2026-08-04T15:00:00Z');
  ok(await once.send('owner', 'POST', `/api/callback-entries/${entry.id}/reversal`, { body: { words: 'Wrong account' } }));
  await remember('2026-08-05T12:00:00Z');
  at('2026-08-11T15:00:00Z');
  await pay(id, 11_000);
  ok(await on(once, 'owner', id, 'recoveries', { cents: 4_000, receivedOn: '2026-08-11', words: 'x', source: 'insurer' }));
  await remember('2026-08-12T12:00:00Z');
  expect(seen.get('owner 2026-06-10 by=month&of=incurred')).toMatchObject({
    origins: [{ cells: [0, 40_000, 15_000] }, { cells: [0, 7_000] }, { cells: [0] }],
  });
}, 60_000);

it.each(['before', 'after'])('is as of every past day what the page said on it, %s the sums are made anew', async (when) => {
  at('2026-09-15T15:00:00Z');
  if (when === 'after') await rebuildFigures(night());
  expect([seen.size, summed.size]).toEqual([7 * ASKED.length, 7]);
  for (const [iso, rows] of summed) expect(await sums(new Date(iso)), iso).toEqual(rows);
  for (const [key, body] of seen) {
    const [who, day, query] = key.split(' ') as [Judge, string, string];
    expect(await page(who, `${query}&asOf=${day}`), key).toEqual(body);
  }
});

it('leaves out of the pages of others what is for the owner alone, to the cent', async () => {
  const sum = async (who: Judge, of: string) => (await latest(of, who)).reduce((total, [, amount]) => total + amount, 0);
  expect([await sum('owner', 'callbacks'), await sum('lead', 'callbacks')]).toEqual([3, 2]);
  expect((await sum('owner', 'incurred')) - (await sum('lead', 'incurred'))).toBe(90_000);
  expect(JSON.stringify(seen.get('lead 2026-07-08 by=month&of=paid'))).not.toContain('90000');
});

it('gives the triangle and its estimates as a table, and the expectation that somebody has its place', async () => {
  const csv = ok(
    await api.send('owner', 'GET', '/api/liability/development/table.csv?table=triangle&by=quarter&of=callbacks&asOf=2026-09-15'),
  );
  expect(csv.headers['content-disposition']).toContain('development-of-callbacks-by-quarter.csv');
  const [head, second, third, together] = readCsv(csv.body).rows.map(({ cells }) => cells);
  expect(head!.slice(0, 7)).toEqual([
    'inspected in',
    'jobs',
    'callbacks',
    'after 1 quarter',
    'after 2 quarters',
    'expected after 2 quarters',
    'latest, 2026-09-15',
  ]);
  expect([second!.slice(0, 5), third!.slice(0, 5), together!.slice(0, 3)]).toEqual([
    ['Q2 2026', '2', '3', '2', '3'],
    ['Q3 2026', '0', '0', '0', ''],
    ['together', '2', '3'],
  ]);
  expect((await api.send('office', 'GET', '/api/liability/development/table.csv?table=factors')).status).toBe(403);
  const outstanding = await readOutstanding(api.database.read, { now: api.clock.now, seeOwnerOnly: true });
  expect(outstanding).toMatchObject({ ok: true, value: ok(await read('owner')).body.outstanding });
});

it('sums the same live, made at night, and made at night with a day on top', async () => {
  await api.database.transaction((tx) => tx.rows("UPDATE figure_state SET until = '-infinity', steps_until = '-infinity' RETURNING id"));
  for (const table of ['figure', 'span_sum', 'figure_day', 'step_figure', 'week_figure'])
    await api.database.transaction((tx) => tx.rows(`DELETE FROM ${table} RETURNING 1`));
  const live = await everything();
  expect(live.dated['step']!.length + live.spans.length + live.steps.length).toBeGreaterThan(20);
  await rebuildFigures(night(), true);
  expect(await everything()).toEqual(live);
  await received(once, first, { kind: 'missed', words: 'Another one.' });
  const topped = await everything();
  expect(total(topped.dated['all']!, 'callbacks')).toBe(total(live.dated['all']!, 'callbacks') + 1);
  const until = async () => (await api.database.read.rows<{ until: Date }>('SELECT until FROM figure_state'))[0]!.until;
  at('2026-09-16T07:00:00Z'); // two in the morning in Wisconsin: not yet
  await rebuildFiguresAtNight(night());
  expect(await until()).toEqual(new Date('2026-09-15T05:00:00Z'));
  at('2026-09-16T08:00:00Z');
  await rebuildFiguresAtNight(night());
  expect(await until()).toEqual(new Date('2026-09-16T05:00:00Z'));
  expect(await everything()).toEqual(topped);
});
