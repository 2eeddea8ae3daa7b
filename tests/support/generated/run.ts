// Sends generated requests as people of the firm and as strangers: what fits, and what was spoiled in a known way. After each: no error inside, a reply
// as described, nothing that its reader may not see, no change without its audit row.
import type pg from 'pg';
import type { Route } from '@backsight/contract/route';
import { PASSWORD, CAST, type CastName } from '../cast.ts';
import { nameOf } from '../contracts.ts';
import type { TestApi } from '../http.ts';
import { touchedTables } from '../hostileRun.ts';
import { repliesOf } from './replies.ts';
import { WAYS, type Sent } from './spoil.ts';
import { drawFrom, fitting, type Draw, type Ids, type Schema } from './values.ts';
import type { Asker, Canary } from './world.ts';

const ASKERS: readonly Asker[] = ['owner', 'office', 'lead', 'anna', 'cora', 'nobody'];
const FITS = 'as it is';
/** Of a hundred requests so many are not spoiled. */
const UNSPOILED = 50;

export type Tally = {
  wrong: string[];
  ways: Map<string, number>;
  statuses: Map<string, number>;
  reached: Set<string>;
  sent: number;
  validated: number;
};
type World = { canaries: readonly Canary[]; ids: Ids; seen: Ids };
type Kit = World & {
  api: TestApi;
  document: Schema;
  watching: pg.Client;
  draw: Draw;
  cookies: Map<Asker, string>;
  replies: Awaited<ReturnType<typeof repliesOf>>;
  n: number;
};

const described = (route: Route): string => route.path.replace(/:(\w+)/g, '{$1}');
const may = ({ who }: Route, asker: Asker): boolean =>
  who === 'anyone' ||
  (asker !== 'nobody' && (who === 'signed_in' || who.some((role) => (CAST[asker].roles as readonly string[]).includes(role))));

/** A request that fits the description of its route, with ids of what there is. */
function fittingRequest(kit: Kit, route: Route): Sent {
  const ids = route.method === 'GET' ? kit.seen : kit.ids;
  const of = fitting(kit.document, ids, kit.draw);
  const operation = kit.document['paths'][described(route)][route.method.toLowerCase()] as Schema;
  const known = (before: string, name: string): readonly string[] => ids[name] ?? ids[before] ?? ids['jobs']!;
  const path = route.path.replace(
    /([\w-]+)\/:(\w+)/g,
    (_, before: string, name: string) => `${before}/${kit.draw.one(known(before, name))}`,
  );
  const query = ((operation['parameters'] ?? []) as Schema[])
    .filter((one) => one['in'] === 'query' && (one['required'] || kit.draw.chance(40)))
    .map((one) => `${one['name']}=${encodeURIComponent(String(of(one['schema'], one['name'])))}`);
  const body = operation['requestBody']?.content?.['application/json']?.schema as Schema | undefined;
  const headers = {
    ...(route.creates ? { 'idempotency-key': `generated-${kit.n++}` } : {}),
    ...(route.edits ? { 'if-match': kit.draw.one(['"1"', '"1"', '"2"', '"3"']) } : {}),
  };
  return { path, query: query.join('&'), headers, ...(body ? { body: of(body) } : {}) };
}

async function signIn(kit: Kit, who: Asker): Promise<boolean> {
  if (who === 'nobody') return true;
  const reply = await kit.api
    .app()
    .inject({ method: 'POST', url: '/api/session', payload: { email: CAST[who as CastName].email, password: PASSWORD } });
  kit.cookies.set(who, String(reply.headers['set-cookie']).split(';')[0]!);
  return reply.statusCode === 200;
}

/** What is wrong with one reply, in words. */
function faultsOf(
  kit: Kit,
  route: Route,
  who: Asker,
  reply: { statusCode: number; headers: Record<string, unknown>; body: string },
  grown: string[],
): string[] {
  const { statusCode: status, body } = reply;
  const type = String(reply.headers['content-type'] ?? '');
  const faults: string[] = [];
  if (status >= 500) faults.push('an error inside');
  if (type.includes('json')) {
    const wrong = kit.replies.wrongWith(described(route), route.method, status, JSON.parse(body));
    if (wrong !== null) faults.push(`not as described: ${wrong}`);
  }
  if (status >= 400 && !type.startsWith('application/problem+json')) faults.push('no problem details');
  if (status >= 400 && grown.length > 0) faults.push(`changed ${grown.join(', ')}`);
  if (status < 400 && grown.length > 0 && !grown.includes('audit_row')) faults.push(`changed ${grown.join(', ')} without an audit row`);
  for (const { name, words, may: allowed } of kit.canaries)
    if (!allowed.includes(who) && body.includes(words)) faults.push(`tells ${who} the ${name}`);
  return faults;
}

async function sendOne(kit: Kit, route: Route, tally: Tally): Promise<void> {
  const { draw } = kit;
  const fit = ASKERS.filter((one) => may(route, one));
  const who = draw.chance(85) && fit.length > 0 ? draw.one(fit) : draw.one(ASKERS);
  const way = draw.chance(UNSPOILED) ? FITS : draw.one(Object.keys(WAYS));
  const fits = fittingRequest(kit, route);
  const sent = way === FITS ? fits : WAYS[way]!(fits, draw, Object.values(kit.ids).flat());
  const raw = sent.raw ?? (sent.body === undefined ? undefined : JSON.stringify(sent.body));
  const writes = route.method !== 'GET' && route.method !== 'DELETE' && raw !== undefined;
  const cookie = kit.cookies.get(who);
  const headers = { ...(cookie ? { cookie } : {}), ...(writes ? { 'content-type': 'application/json' } : {}), ...sent.headers };
  const url = `${sent.path}${sent.query ? `?${sent.query}` : ''}`;
  const reply = await kit.api.app().inject({ method: route.method, url, headers, ...(writes ? { payload: raw } : {}) });
  const grown = await touchedTables(kit.watching);
  const count = (map: Map<string, number>, key: string) => map.set(key, (map.get(key) ?? 0) + 1);
  tally.sent += 1;
  count(tally.ways, way);
  count(tally.statuses, `${route.method === 'GET' ? 'reads' : 'writes'} ${reply.statusCode}`);
  if (reply.statusCode < 300) tally.reached.add(nameOf(route));
  const told = `${who} ${way} ${route.method} ${url.slice(0, 200)} ${(raw ?? '').slice(0, 300)} -> ${reply.statusCode} ${reply.body.slice(0, 200)}`;
  for (const fault of faultsOf(kit, route, who, reply, grown)) tally.wrong.push(`${fault}: ${told}`);
  if (reply.statusCode === 401 && who !== 'nobody' && way !== 'invalid cookie') await signIn(kit, who);
}

/** Sends `howMany`, each route as often as the others; the same for the same seed. */
export async function sendGenerated(
  api: TestApi,
  routes: readonly Route[],
  made: World,
  watching: pg.Client,
  { howMany, seed }: { howMany: number; seed: number },
): Promise<Tally> {
  const document = (await api.app().inject('/api/openapi.json')).json() as Schema;
  const replies = await repliesOf(document);
  const kit: Kit = { ...made, api, document, watching, draw: drawFrom(seed), cookies: new Map(), replies, n: 0 };
  const tally: Tally = { wrong: [], ways: new Map(), statuses: new Map(), reached: new Set(), sent: 0, validated: 0 };
  for (const who of ASKERS) await signIn(kit, who);
  await touchedTables(watching);
  while (tally.sent < howMany) for (const route of routes) await sendOne(kit, route, tally);
  tally.validated = replies.described();
  await replies.close();
  return tally;
}
