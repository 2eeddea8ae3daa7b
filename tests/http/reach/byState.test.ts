// What the state of a thing forbids although the role is right: each row of the table, tried on the routes that it names (OWASP ASVS 5.0, 8.1.2
// and 8.2.1: rules that depend on the thing are written down, and hold).
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { STATES, type StateRow } from '@backsight/contract/states';
import type { CastName } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { received } from '../callbacks/support.ts';
import { start } from '../sitework/support.ts';

const api = testApi();
withStarter(api);
let routes: Route[];
beforeAll(async () => {
  routes = await allRoutes();
});
const DAY = 24 * 3_600_000;
const after = (days: number) => new Date(api.clock.now.getTime() + days * DAY);
const BODIES: Record<string, object> = {
  'POST /api/jobs/:id/parties': { id: randomUUID(), role: 'payer', name: 'Peter Payer', email: 'peter@test.example' },
  'PUT /api/jobs/:id/access': { state: 'asked' },
  'PUT /api/jobs/:id/cancellation': { reason: 'twice' },
  'POST /api/records/:id/items': { id: randomUUID(), kind: 'panel', label: 'Garage' },
  'POST /api/records/:id/supplements': { id: randomUUID(), text: 'Seen later.', happenedAt: '2026-05-12T15:00:00Z' },
};

/** Asks every route of a row about the thing, as each of these; answers what was not refused with its code. */
async function notRefused(row: StateRow, id: string, who: readonly CastName[], version = 1): Promise<string[]> {
  const every = 'under' in row.routes ? row.routes.under : null;
  const named = routes.filter((route) => (every ? route.path.startsWith(every) : (row.routes as string[]).includes(nameOf(route))));
  expect(named.length).toBeGreaterThanOrEqual(every ? 40 : (row.routes as string[]).length);
  const wrong: string[] = [];
  for (const route of named)
    for (const one of who) {
      const url = route.path.replace(':id', id).replace(/:\w+/g, randomUUID());
      const body = route.method === 'GET' || route.method === 'DELETE' ? {} : { body: BODIES[nameOf(route)] ?? {} };
      const { status, body: said } = await api.send(one, route.method, url, { ...body, once: true, ...(route.edits ? { version } : {}) });
      // Where a body that fits nothing is refused first, nothing of the thing was read; a role that the gate refuses is told so.
      const unread = every !== null && ['not-valid', 'not-allowed'].includes(said?.code) && (status === 422 || status === 403);
      if (said?.code !== row.code && !unread) wrong.push(`${nameOf(route)} as ${one}: ${status} ${said?.code}`);
    }
  return wrong;
}

describe('the state of a thing', () => {
  it(`refuses: ${STATES.ownersAlone.state}`, async () => {
    const job = await siteJob(api, { startsAt: after(-3) });
    const id = await received(api, job, {
      ...{ kind: 'demand_or_suit', speaker: 'attorney', servedOn: '2026-05-12', serviceWay: 'by mail', deadlineOn: '2026-06-01' },
    });
    expect(await notRefused(STATES.ownersAlone, id, ['lead', 'office'])).toEqual([]);
    expect((await api.send('owner', 'GET', `/api/callbacks/${id}`)).status).toBe(200);
    for (const path of ['/api/callbacks', '/api/callbacks/table.csv', '/api/home', '/api/find?q=1001', `/api/jobs/${job.jobId}`])
      for (const who of ['lead', 'office'] as const)
        expect(JSON.stringify((await api.send(who, 'GET', path)).body), path).not.toContain(id);
  }, 60_000);
  it(`refuses: ${STATES.cancelled.state}`, async () => {
    const { jobId } = await siteJob(api, { startsAt: after(20) });
    const { version } = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body;
    await api.database.transaction(async ({ db }) => {
      await db.visit.updateMany({ where: { jobId }, data: { state: 'cancelled', live: false } });
      await db.job.update({ where: { id: jobId }, data: { state: 'cancelled' } });
    });
    expect(await notRefused(STATES.cancelled, jobId, ['owner', 'office'], version)).toEqual([]);
  });
  it(`refuses: ${STATES.recordOpen.state}; ${STATES.recordSealed.state}; ${STATES.visitOver.state}`, async () => {
    const { visitId } = await siteJob(api, { startsAt: api.clock.now });
    const id = await start(api, visitId);
    expect((await api.send('anna', 'GET', `/api/visits/${visitId}/way-in`)).status).toBe(200);
    expect(await notRefused(STATES.recordOpen, id, ['anna', 'lead'])).toEqual([]);
    expect(await notRefused(STATES.supplementEarly, id, ['anna', 'lead'])).toEqual([]);
    await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'stopped_for_safety' } });
    expect(await notRefused(STATES.visitOver, visitId, ['anna', 'ben'])).toEqual([]);
    expect((await api.send('ben', 'POST', `/api/records/${id}/seal`, { body: {} })).status).toBe(201);
    expect(await notRefused(STATES.recordSealed, id, ['anna', 'ben'])).toEqual([]);
  }, 60_000);
});
