// What belongs to a job is not for an inspector who does not go there, by whatever id it is asked for (OWASP ASVS 5.0, 8.2.2: access to
// specific data items only for whoever has explicit permission; OWASP API Security Top 10 2023, API1, broken object level authorization).
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { Named, Route } from '@backsight/contract/route';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { twoCrews, type Things } from '../../support/twoCrews.ts';

const api = testApi();
withStarter(api);
let routes: Route[];
let own: Things;
let others: Things;
beforeAll(async () => {
  ({ own, others } = await twoCrews(api));
  routes = (await allRoutes()).filter(({ who }) => who === 'signed_in' || (who !== 'anyone' && who.includes('inspector')));
});

const OF_JOBS: readonly (Named | undefined)[] = ['job', 'visit', 'record', 'report', 'agreement', 'signer', 'test_item'];
const ofJobs = (): Route[] => routes.filter(({ of }) => OF_JOBS.includes(of));
const at = (route: Route, id: string): string => route.path.replace(':id', id).replace(/:\w+/g, () => randomUUID());
const ask = (route: Route, id: string) =>
  api.send('anna', route.method, at(route, id), {
    once: true,
    ...(route.edits ? { version: 1 } : {}),
    ...(route.method === 'GET' || route.method === 'DELETE' ? {} : { body: {} }),
  });

/** Every id that a schema asks for, by its path. */
function idsIn(schema: unknown, path = ''): string[] {
  const { def } = (schema ?? {}) as { def?: Record<string, any> };
  if (!def) return [];
  const below = (inner: unknown, name = ''): string[] => idsIn(inner, [path, name].filter(Boolean).join('.'));
  return [
    ...(def.type === 'string' && def.format === 'uuid' ? [path] : []),
    ...Object.entries((def.shape ?? {}) as Record<string, z.ZodType>).flatMap(([name, inner]) => below(inner, name)),
    ...[def.element, def.innerType, def.in, def.valueType, ...(def.options ?? []), ...(def.items ?? [])].flatMap((inner) => below(inner)),
  ];
}

/** Ids in queries and bodies that could be of another crew, and what says no. What is not here names no thing of a job. */
const NAMES_A_JOB = /(job|visit|record|report|agreement|signer|party|client|property|entry|package|item|photo)/i;
const TRIED: Record<string, string> = {
  'POST /api/callbacks jobId': 'below',
  'POST /api/callbacks partyId': 'must be of the job (party-not-on-job)',
  'POST /api/callbacks newParty.id': 'is new',
  'POST /api/kit/:id/failure visitId': 'below',
  'GET /api/kit/:id/swaps visitId': 'below',
  'POST /api/visits/:id/record items.id': 'is new',
  'POST /api/records/:id/entries entries.packageId': 'must be of the record in the path',
  'POST /api/records/:id/entries entries.itemId': 'must be of the record in the path',
  'POST /api/records/:id/entries entries.photos': 'is new',
  'POST /api/records/:id/entries entries.corrects.entryId': 'must be of the record in the path',
  'POST /api/records/:id/entries entries.act.item': 'must be of the record in the path',
  'POST /api/records/:id/entries entries.act.photo': 'is new',
  'POST /api/records/:id/photos entryId': 'must be of the record in the path',
  'POST /api/records/:id/spoken-notes entryId': 'must be of the record in the path',
  'POST /api/jobs/:id/report-consents partyId': 'must be of the job in the path',
  'POST /api/jobs/:id/report-consents clientId': 'must be of the job in the path',
  'POST /api/jobs/:id/reports defects.itemId': 'must be of the job in the path',
  'POST /api/reports/:id/deliveries partyId': 'must be of the job in the path',
};

describe('a thing of a job', () => {
  it('is named as one by every route that lets inspectors through and has a name in its path', () =>
    expect(routes.filter(({ path, of }) => path.includes(':') && of === undefined).map(nameOf)).toEqual([]));
  it('is refused to whoever does not go there, on every route, before anything of the request is read', async () => {
    const wrong: string[] = [];
    for (const route of ofJobs()) {
      const { status, body } = await ask(route, others[route.of as keyof Things] as string);
      if (status !== 403 || body.code !== 'not-on-this-visit') wrong.push(`${nameOf(route)}: ${status} ${body?.code}`);
    }
    expect(wrong).toEqual([]);
    expect(ofJobs().length).toBeGreaterThan(40);
  }, 120_000);
  it('is as unknown as one that nobody has', async () => {
    for (const route of ofJobs()) expect((await ask(route, randomUUID())).body?.code, nameOf(route)).not.toBe('not-on-this-visit');
  }, 120_000);
  it('is open to those who go', async () => {
    const reads = ofJobs().filter(
      ({ method, path, of }) => method === 'GET' && !/sealed|paper|reports|file|photo|spoken|ending/.test(path) && of,
    );
    for (const route of reads) {
      const query = route.path.endsWith('/late') ? '?minutes=10' : '';
      const { status, body } = await api.send('anna', 'GET', `${at(route, own[route.of as keyof Things] as string)}${query}`);
      expect(status, `${nameOf(route)} ${JSON.stringify(body).slice(0, 200)}`).toBe(200);
    }
    expect(reads.length).toBeGreaterThan(10);
  });
});

describe('an id in a query or a body', () => {
  it('has its answer in the table above', () => {
    const named = routes.flatMap((route) =>
      [...new Set([...idsIn(route.query), ...idsIn(route.body)])]
        .filter((path) => NAMES_A_JOB.test(path))
        .map((path) => `${nameOf(route)} ${path}`),
    );
    expect(named.toSorted()).toEqual(Object.keys(TRIED).toSorted());
  });
  it('of another crew is refused', async () => {
    const told = {
      ...{ speaker: 'client', kind: 'near_miss', safety: false, system: 'roof', place: 'roof' },
      remedySought: 'none',
      words: 'x',
    };
    const [piece] = (await api.send('anna', 'GET', '/api/kit')).body.items;
    const asked = (id: { job: string; visit: string }) => [
      api.send('anna', 'POST', '/api/callbacks', { body: { id: randomUUID(), jobId: id.job, ...told } }),
      api.send('anna', 'GET', `/api/kit/${piece.id}/swaps?visitId=${id.visit}`),
      api.send('anna', 'POST', `/api/kit/${piece.id}/failure`, { body: { id: randomUUID(), note: 'x', visitId: id.visit } }),
    ];
    for (const one of await Promise.all(asked(others))) expect(one).toMatchObject({ status: 403, body: { code: 'not-on-this-visit' } });
    for (const one of await Promise.all(asked(own))) expect(one.status, JSON.stringify(one.body)).toBeLessThan(300);
  });
});

describe('lists of an inspector', () => {
  const seen = async (who: 'anna' | 'office', path: string): Promise<string> => JSON.stringify((await api.send(who, 'GET', path)).body);
  it.each([
    ['jobs', '/api/jobs'],
    ['jobs by words', '/api/jobs?text=Alder'],
    ['the week', '/api/week?from=2026-05-11'],
    ['jobs of the intake', '/api/callbacks/jobs?q=Alder'],
    ['what the go-to box finds', '/api/find?q=Alder'],
    ['what it finds by name', '/api/find?q=Paula'],
    ['what is spelled nearly so', '/api/find?q=Aldder'],
    ['the home', '/api/home'],
    ['the day', '/api/my-day'],
    ['what is handed out ahead', '/api/my-day/ahead'],
  ])('%s hold what is one’s own and nothing of another crew', async (_, path) => {
    const mine = await seen('anna', path);
    for (const id of [others.job, others.visit, others.record, `"jobNumber":${others.number}`, `Job ${others.number}`])
      expect(mine).not.toContain(id);
    if (!/Paula|Aldder|ahead/.test(path)) expect(mine, path).toContain(path === '/api/home' ? own.visit : own.job);
    if (/jobs|week|find\?q=Alder$/.test(path)) expect(await seen('office', path)).toContain(others.job);
  });
  it('say of colleagues how they are reached, not where they live or where they must not go', async () => {
    const people: { id: string; homeAddress: string; homeLat: number | null; phone: string }[] = (
      await api.send('anna', 'GET', '/api/people')
    ).body;
    expect(people.filter(({ homeAddress, homeLat }) => homeAddress !== '' || homeLat !== null).map(({ id }) => id)).toEqual([CAST.anna.id]);
    expect(people.every(({ phone }) => phone !== '')).toBe(true);
    expect((await api.send('anna', 'GET', `/api/people/${CAST.ben.id}`)).body).toMatchObject({ homeAddress: '', homeLat: null });
    expect((await api.send('office', 'GET', `/api/people/${CAST.ben.id}`)).body).toMatchObject({ homeAddress: 'Birchmere' });
  });
});
