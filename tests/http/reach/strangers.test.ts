// Whoever is nobody to the firm gets through no gate: no sign-in, an ended one, one whose person left or lost every role, a client's link held
// up as if it were a sign-in (OWASP ASVS 5.0, 7.4: sessions end on the server; 8.3.1: every request is judged where it cannot be got around).
import { beforeAll, describe, expect, it } from 'vitest';
import { PAGES } from '@backsight/contract/pages';
import type { Route } from '@backsight/contract/route';
import { CAST, PASSWORD } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { size } from '../../support/size.ts';

const api = testApi();
withStarter(api);
const HOUR = 3_600_000;
const begin = async (who: keyof typeof CAST): Promise<string> => {
  const reply = await api.app().inject({ method: 'POST', url: '/api/session', payload: { email: CAST[who].email, password: PASSWORD } });
  expect(reply.statusCode, reply.body).toBe(200);
  return String(reply.headers['set-cookie']).split(';')[0]!;
};
const LINK = 'q8Jm1vY0cN5sR2tU7wX4zA9bC6dE3fG1hI0jK5lM8nP';
let routes: Route[];
/** What each stranger sends along. */
let strangers: Record<string, Record<string, string>>;
beforeAll(async () => {
  routes = (await allRoutes()).filter((route) => nameOf(route) !== 'DELETE /api/session');
  const now = api.clock.now;
  api.clock.now = new Date(now.getTime() - 13 * HOUR);
  const old = await begin('owner');
  api.clock.now = now;
  const [signedOut, left, ended] = [await begin('owner'), await begin('dan'), await begin('second')];
  await api.app().inject({ method: 'DELETE', url: '/api/session', headers: { cookie: signedOut } });
  const endedOn = new Date(`${new Date(now.getTime() - 24 * HOUR).toISOString().slice(0, 10)}T00:00:00Z`);
  await api.database.transaction((tx) => tx.db.person.update({ where: { id: CAST.dan.id }, data: { endedOn } }));
  const { id, version } = (await api.send('owner', 'GET', `/api/people/${CAST.second.id}`)).body;
  expect(version).toBeGreaterThan(0);
  await api.send('owner', 'PUT', `/api/people/${id}/password`, {
    body: { owners: PASSWORD, password: 'quite another long password' },
  });
  strangers = {
    nobody: {},
    'somebody who signed out': { cookie: signedOut },
    'somebody whose session is twelve hours old': { cookie: old },
    'somebody who left the firm': { cookie: left },
    'somebody whose password was set anew': { cookie: ended },
    'a client’s link as cookie': { cookie: `backsight_session=${LINK}` },
    'a client’s link as bearer': { authorization: `Bearer ${LINK}` },
    'an empty cookie': { cookie: 'backsight_session=' },
    'a cookie twice': { cookie: `backsight_session=${LINK}; backsight_session=${LINK}` },
  };
});

const at = (route: Route): string => route.path.replace(/:\w+/g, '-');
const code = (body: string): unknown => (body.startsWith('{') ? JSON.parse(body).code : undefined);

describe('a stranger', () => {
  it('hears "please sign in" on every route that is not for anyone', async () => {
    const wrong: string[] = [];
    const kinds = Object.entries(strangers);
    const each = size(3, kinds.length); // of the kinds each day, turn about, so that every kind is held against many routes
    for (const [nth, route] of routes.entries())
      for (const [who, headers] of Array.from({ length: each }, (_, n) => kinds[(nth + n * 3) % kinds.length]!)) {
        const sent = { ...headers, 'idempotency-key': 'a-stranger-here', 'if-match': '"1"' };
        const reply = await api.app().inject({ method: route.method, url: at(route), headers: sent });
        const through = code(reply.body) !== 'not-signed-in';
        if (through !== (route.who === 'anyone')) wrong.push(`${nameOf(route)}, ${who}: ${reply.statusCode}`);
      }
    expect(wrong).toEqual([]);
    expect(routes.length).toBeGreaterThan(450);
  }, 240_000);
  it('is somebody with no role at the gates of roles', async () => {
    const cookie = await begin('tess');
    await api.database.transaction((tx) => tx.db.personRole.deleteMany({ where: { personId: CAST.tess.id } }));
    const wrong: string[] = [];
    for (const route of routes.filter(({ who }) => typeof who !== 'string')) {
      const headers = { cookie, 'idempotency-key': 'without-a-role' };
      const reply = await api.app().inject({ method: route.method, url: at(route), headers });
      if (code(reply.body) !== 'not-allowed') wrong.push(`${nameOf(route)}: ${reply.statusCode}`);
    }
    expect(wrong).toEqual([]);
  }, 120_000);
});

/** Every address that the service answers, as `METHOD /path` with names left out. */
function answered(): string[] {
  const found: string[] = [];
  const above: string[] = [];
  for (const line of api.app().printRoutes({ commonPrefix: false }).split('\n')) {
    const shown = /^(?<indent>.*?)(?:├── |└── )(?<path>\S*)(?: \((?<methods>[^)]+)\))?$/.exec(line)?.groups;
    if (!shown) continue;
    const depth = shown.indent!.length / 4;
    above.length = depth;
    above[depth] = shown.path!.replace(/^\(empty root node\)$/, '');
    for (const method of shown.methods?.split(', ') ?? []) if (method !== 'HEAD') found.push(plain(method, above.join('')));
  }
  return found;
}
/** Names differ, and what stands at one place may have two of them. */
const plain = (method: string, path: string): string =>
  `${method} ${path.replace(/:\w+(\|:\w+)*/g, ':').replace(/\/\//g, '/')}`.replace(/(.)\/$/, '$1');

describe('every address', () => {
  it('is a route with its roles, or a page with what opens it', () => {
    const rows = new Set([...routes, { method: 'DELETE', path: '/api/session' }, ...PAGES].map(({ method, path }) => plain(method, path)));
    const open = answered().filter((one) => !/^GET \/api\/docs/.test(one));
    expect(open.filter((one) => !rows.has(one))).toEqual([]);
    expect([...rows].filter((one) => !open.includes(one))).toEqual([]);
  });
});
