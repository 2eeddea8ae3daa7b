// Development of callbacks and their cost: as of any past day the page is what it was on that day, for whoever may see what.
import { expect, it } from 'vitest';
import { readCsv } from '@backsight/documents/csvRead';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { readOutstanding } from '@backsight/usecases/liability/development/outstanding';
import { testApi, type Answer } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { start } from '../sitework/support.ts';
import { concluded, on, proposed, received, remedy, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
type Judge = 'owner' | 'lead';
const read = (who: Judge | 'office' | 'anna', query = ''): Promise<Answer> => api.send(who, 'GET', `/api/liability/development${query}`);
const ASKED: readonly (readonly [Judge, string])[] = [
  ['owner', 'by=month&of=incurred'],
  ['owner', 'by=quarter&of=callbacks&method=chain_ladder'],
  ['owner', 'by=year&of=paid'],
  ['lead', 'by=month&of=incurred'],
];
const at = (iso: string): Date => (api.clock.now = new Date(iso));
const ok = (answer: Answer): Answer => {
  expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
  return answer;
};
/** Pages as they were on a day, by day, person and question. */
const seen = new Map<string, unknown>();
const page = async (who: Judge, query: string): Promise<unknown> => {
  const { today: _, ...body } = ok(await read(who, `?${query}`)).body;
  return body;
};
async function remember(iso: string): Promise<void> {
  at(iso);
  for (const [who, query] of ASKED) seen.set(`${who} ${iso.slice(0, 10)} ${query}`, await page(who, query));
}
const latest = async (of: string, who: Judge = 'owner'): Promise<[string, number][]> =>
  ok(await read(who, `?by=month&of=${of}`)).body.origins.map((origin: { name: string; latest: number }) => [origin.name, origin.latest]);
const pay = async (id: string, cents: number) =>
  ok(await remedy(api, 'owner', await proposed(api, 'owner', id, cents), 'payment', { paidOn: api.clock.now.toISOString().slice(0, 10) }));
let first: Visited;

it('says of an empty firm and of one job why nothing can be estimated, and is for owner and lead inspector alone', async () => {
  at('2026-04-28T15:00:00Z');
  const empty = ok(await read('owner')).body;
  expect(empty).toMatchObject({ by: 'quarter', of: 'incurred', asOf: '2026-04-28', wholeUntil: '2026-03-31', origins: [], folded: null });
  expect(empty.estimate).toMatchObject({ ok: false, sentence: 'Cannot be estimated because nothing was inspected by then.' });
  expect(empty.outstanding).toMatchObject({ ok: false });
  first = await visited(api);
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
  const other = await siteJob(api, { startsAt: at('2026-05-06T15:00:00Z') });
  await start(api, other.visitId, 'anna');
  at('2026-05-12T15:00:00Z');
  const id = await concluded(api, first);
  ok(await on(api, 'lead', id, 'reserve', { cents: 40_000, words: 'Food' }));
  await received(api, first, { kind: 'near_miss', partyId: undefined });
  await remember('2026-05-13T12:00:00Z');
  at('2026-05-20T15:00:00Z');
  const twin = await received(api, first);
  ok(await on(api, 'office', twin, 'link', { link: { kind: 'duplicate', to: id }, words: 'The same freezer' }));
  await remember('2026-05-21T12:00:00Z');
  at('2026-06-02T15:00:00Z');
  ok(await on(api, 'office', twin, 'link/undo', { words: 'Another freezer' }));
  await remember('2026-06-03T12:00:00Z');
  expect(await latest('callbacks')).toEqual([
    ['Apr 2026', 2],
    ['May 2026', 0],
    ['Jun 2026', 0],
  ]);
  at('2026-06-09T15:00:00Z');
  ok(await on(api, 'lead', id, 'reserve', { cents: 15_000, words: 'Less than feared' }));
  ok(await on(api, 'office', twin, 'job', { jobId: other.jobId, words: 'It was the house of May' }));
  ok(await on(api, 'lead', twin, 'reserve', { cents: 7_000, words: 'Its food' }));
  await remember('2026-06-10T12:00:00Z');
  expect([await latest('callbacks'), await latest('incurred')]).toEqual([
    [
      ['Apr 2026', 1],
      ['May 2026', 1],
      ['Jun 2026', 0],
    ],
    [
      ['Apr 2026', 15_000],
      ['May 2026', 7_000],
      ['Jun 2026', 0],
    ],
  ]);
  at('2026-07-07T15:00:00Z');
  ok(await on(api, 'owner', id, 'clearance', { kind: 'insurer_consent', words: 'By e-mail of the claim desk' }));
  await pay(id, 12_000);
  const secret = await received(api, first, { ownerOnly: true });
  ok(await on(api, 'owner', secret, 'reserve', { cents: 90_000, words: 'A letter of an attorney' }));
  await remember('2026-07-08T12:00:00Z');
  const [entry] = ok(await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.moneyEntries.filter(
    (one: { kind: string }) => one.kind === 'callback_payment',
  );
  at('2026-08-04T15:00:00Z');
  ok(await api.send('owner', 'POST', `/api/callback-entries/${entry.id}/reversal`, { body: { words: 'Wrong account' } }));
  await remember('2026-08-05T12:00:00Z');
  at('2026-08-11T15:00:00Z');
  await pay(id, 11_000);
  ok(await on(api, 'owner', id, 'recoveries', { cents: 4_000, receivedOn: '2026-08-11', words: 'x', source: 'insurer' }));
  await remember('2026-08-12T12:00:00Z');
  expect(seen.get('owner 2026-06-10 by=month&of=incurred')).toMatchObject({
    origins: [{ cells: [0, 40_000, 15_000] }, { cells: [0, 7_000] }, { cells: [0] }],
  });
});

it.each(['before', 'after'])('is as of every past day what the page said on it, %s the sums are made anew', async (when) => {
  at('2026-09-15T15:00:00Z');
  if (when === 'after') await rebuildFigures({ database: api.database, clock: () => api.clock.now });
  expect(seen.size).toBe(7 * ASKED.length);
  for (const [key, body] of seen) {
    const [who, day, query] = key.split(' ') as [Judge, string, string];
    expect(await page(who, `${query}&asOf=${day}`), key).toEqual(body);
  }
});

it('leaves out of the pages of others what is for the owner alone, to the cent', async () => {
  const sum = async (who: Judge, of: string) => (await latest(of, who)).reduce((total, [, amount]) => total + amount, 0);
  expect([await sum('owner', 'callbacks'), await sum('lead', 'callbacks')]).toEqual([3, 2]);
  expect((await sum('owner', 'incurred')) - (await sum('lead', 'incurred'))).toBe(90_000);
  const secretless = seen.get('lead 2026-07-08 by=month&of=incurred') as { outstanding: { reservedCents?: number } };
  expect(JSON.stringify(secretless)).not.toContain('90000');
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
