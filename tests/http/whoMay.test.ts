// For every route and every role: the gate lets through exactly those whom the route names.
import { beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import type { Role } from '@backsight/domain/people/roles';
import { CAST, type CastName } from '../support/cast.ts';
import { allRoutes, nameOf } from '../support/contracts.ts';
import { testApi } from '../support/http.ts';

const api = testApi();
let routes: Route[];
beforeAll(async () => {
  routes = await allRoutes();
});

const ASKING: readonly (CastName | 'nobody')[] = ['nobody', 'owner', 'office', 'lead', 'anna'];

const rolesOf = (who: CastName | 'nobody'): readonly Role[] => (who === 'nobody' ? [] : CAST[who].roles);

/** What the gate must answer: 401 to a stranger, 403 to the wrong role, else anything but these two from the gate. */
function mustBe(route: Route, who: CastName | 'nobody'): 'not-signed-in' | 'not-allowed' | 'through' {
  if (route.who === 'anyone') return 'through';
  if (who === 'nobody') return 'not-signed-in';
  return route.who === 'signed_in' || route.who.some((role) => rolesOf(who).includes(role)) ? 'through' : 'not-allowed';
}

/** The gate stands before the schemas: a request that fits none of them shows what the gate says. Params that fit nothing end at the schema. */
const addressOf = (route: Route): string => route.path.replace(/:\w+/g, '-');

describe('who may', () => {
  it('is answered for every route and role as the contract says', async () => {
    const wrong: string[] = [];
    for (const route of routes.filter((r) => nameOf(r) !== 'DELETE /api/session')) {
      for (const who of ASKING) {
        const answer = await api.send(who, route.method, addressOf(route), {
          once: true,
          headers: { 'content-type': 'application/json' },
          version: route.edits ? 1 : undefined,
          body: route.method === 'GET' || route.method === 'DELETE' ? undefined : 'x',
        });
        const code = answer.body?.code;
        const was = code === 'not-signed-in' ? 'not-signed-in' : code === 'not-allowed' ? 'not-allowed' : 'through';
        if (was !== mustBe(route, who))
          wrong.push(`${nameOf(route)} as ${who}: ${answer.status} ${code}, but must be ${mustBe(route, who)}`);
      }
    }
    expect(wrong).toEqual([]);
  }, 120_000);
  it('is next to nothing before an owner has a second factor', () => {
    expect(routes.filter(({ beforeFactor }) => beforeFactor).map(nameOf)).toEqual([
      'DELETE /api/session',
      'GET /api/me',
      'GET /api/me/security',
      'POST /api/me/second-factor',
      'PUT /api/me/second-factor',
    ]);
  });
  it('is never "anyone" but for signing in, health, set-up and what a private link opens', () => {
    const open = routes.filter((route) => route.who === 'anyone').map(nameOf);
    expect(open.filter((name) => !/ \/api\/(health|session|set-up|client\/|fingerprints\/)/.test(name))).toEqual([]);
  });
});
