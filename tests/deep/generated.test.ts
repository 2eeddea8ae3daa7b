// Generated requests over all routes, half of them fitting, the others spoiled in known ways, as people of the firm and as strangers. What must hold
// after each is said in tests/support/generated/run.ts. A seed of the day, unless HOSTILE_SEED says which.
import { afterAll, beforeAll, expect, it } from 'vitest';
import type pg from 'pg';
import type { Route } from '@backsight/contract/route';
import { allRoutes, nameOf } from '../support/contracts.ts';
import { sendGenerated } from '../support/generated/run.ts';
import { WAYS } from '../support/generated/spoil.ts';
import { world, type Asker } from '../support/generated/world.ts';
import { watch } from '../support/hostileRun.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const HOW_MANY = 6_000;
const SEED = Number(process.env.HOSTILE_SEED ?? Math.floor(Date.now() / 86_400_000));
/** What would end the sessions that the others need. */
const LEFT_OUT = /\/api\/(session|set-up|password)|second-factor|\/me\/password|sessions/;

const api = testApi();
withStarter(api);
let watching: pg.Client;
let routes: Route[];
let made: Awaited<ReturnType<typeof world>>;
beforeAll(async () => {
  routes = (await allRoutes()).filter((route) => !LEFT_OUT.test(nameOf(route)));
  made = await world(api);
  watching = await watch(api);
});
afterAll(() => watching?.end());

/** All that somebody reads of the things there are, in one text. */
async function readingOf(who: Asker): Promise<string> {
  let text = '';
  for (const { path } of routes.filter(
    ({ method, path }) => method === 'GET' && /^\/api\/(callbacks|accounts|visits|jobs)\/:id(\/[\w-]+)?$/.test(path),
  ))
    for (const id of made.seen[path.startsWith('/api/accounts') ? 'callbacks' : path.split('/')[2]!]!)
      text += JSON.stringify((await api.send(who, 'GET', path.replace(':id', id))).body ?? '');
  return text;
}

it('the words that only some may see are there for one of them, and not on the pages of a client', async () => {
  const told = made.canaries.filter(({ may }) => may.length > 0);
  for (const who of new Set(told.map(({ may }) => may[0]!))) {
    const text = await readingOf(who);
    expect(told.filter(({ may, words }) => may[0] === who && !text.includes(words)).map(({ name }) => name)).toEqual([]);
  }
  expect(made.seen['token']!.length).toBeGreaterThan(0);
  for (const token of made.seen['token']!) {
    const page = await api.app().inject(`/client/${token}`);
    expect([page.statusCode, made.canaries.filter(({ words }) => page.body.includes(words))]).toEqual([200, []]);
  }
});

it(`${HOW_MANY} generated requests, seed ${SEED}`, { timeout: 900_000 }, async () => {
  const { wrong, ways, statuses, reached, sent, validated } = await sendGenerated(api, routes, made, watching, {
    howMany: HOW_MANY,
    seed: SEED,
  });
  const share = (of: string): number => {
    const all = [...statuses].filter(([name]) => name.startsWith(of));
    const sum = (some: typeof all) => some.reduce((n, [, many]) => n + many, 0);
    return sum(all.filter(([name]) => / 2\d\d$/.test(name))) / sum(all);
  };
  console.log(
    `${sent} requests to ${routes.length} routes; ways: ${JSON.stringify(Object.fromEntries(ways))}; answers: ${JSON.stringify(Object.fromEntries([...statuses].sort()))}; ` +
      `2xx: reads ${(100 * share('reads')).toFixed(1)} %, writes ${(100 * share('writes')).toFixed(1)} %; routes with one: ${reached.size}; schemas held against replies: ${validated}`,
  );
  expect([...new Set(wrong.map((one) => one.slice(0, 900)))].slice(0, 12)).toEqual([]);
  expect([...ways.keys()].toSorted()).toEqual(['as it is', ...Object.keys(WAYS)].toSorted());
  expect(share('reads'), 'share of reads that are answered').toBeGreaterThan(0.3);
  expect(share('writes'), 'share of writes that are done').toBeGreaterThan(0.05);
});
