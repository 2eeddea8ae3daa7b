// The road service asked ahead: what is missing is filled in and kept, faults leave the estimate, and the search never waits.
import { beforeEach, describe, expect, it } from 'vitest';
import { fillTravel } from '@backsight/usecases/schedule/fillTravel';
import { placeKey } from '@backsight/scheduling/travelModel';
import { buildApp } from '../../../apps/api/src/app.ts';
import { roadServiceOf } from '../../../apps/api/src/http/roadService.ts';
import { startsOf } from '../../support/booking.ts';
import { BIRCHMERE, CAST, PORT_ANSEL } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { roadServer, type Fault } from '../../support/roadServer.ts';
import { servicesOf } from '../../support/services.ts';
import { withStarter } from '../../support/starter.ts';
import { bookedVisit } from '../../support/visits.ts';

const api = testApi();
withStarter(api);
const server = roadServer();
const settings = (kind: string) => ({ TRAVEL_SERVICE: kind, TRAVEL_URL: server.url });
const service = (kind = 'osrm') => roadServiceOf(servicesOf(api, settings(kind)).config)!;
const parts = () => ({ database: api.database, clock: () => api.clock.now });
const HOUSE = { lat: 44.1, lon: -88.6 };
const setup = async () =>
  (
    await api.database.read.rows<{ engine: string | null; error: string | null }>('SELECT engine, last_error AS error FROM travel_setup')
  )[0];
const cells = async () =>
  (
    await api.database.read.rows<{ a: number; b: number; s: number | null }>(
      'SELECT from_place AS a, to_place AS b, seconds AS s FROM travel_cell',
    )
  ).map(({ a, b, s }) => [a, b, s]);
const sources = async (place = HOUSE) => new Set((await startsOf(api, { place })).options.map(({ travelSource }) => travelSource));

beforeEach(async () => {
  Object.assign(server, { fault: 'none', asked: [], limit: 100, version: '2026-10-01' });
  await api.database.transaction(async ({ db }) => {
    await db.travelCell.deleteMany();
    await db.travelSetup.deleteMany();
  });
});

describe.each(['osrm', 'valhalla'])('%s', (kind) => {
  it('fills in the drives to a place both ways, once, and the search takes them', async () => {
    expect(await sources()).toEqual(new Set(['estimate']));
    const filled = await fillTravel(parts(), service(kind), [HOUSE]);
    const [bases, house] = [[BIRCHMERE, PORT_ANSEL].map(([lat, lon]) => placeKey({ lat, lon })), placeKey(HOUSE)];
    expect(filled).toBeGreaterThanOrEqual(4);
    for (const base of bases) {
      expect((await cells()).filter(([a, b]) => a === base && b === house)).toHaveLength(1);
      expect((await cells()).filter(([a, b]) => a === house && b === base)).toHaveLength(1);
    }
    expect(await sources()).toEqual(new Set(['engine']));
    expect(await startsOf(api, { place: HOUSE })).toMatchObject({ roadService: true });
    server.asked = [];
    expect(await fillTravel(parts(), service(kind), [HOUSE])).toBe(0);
    expect(server.asked.filter((path) => /table|sources_to_targets/.test(path))).toEqual([]);
  });

  it('asks in parts when the table is too big for the service', async () => {
    server.limit = 3;
    await fillTravel(parts(), service(kind), [HOUSE]);
    expect((await cells()).every(([, , seconds]) => seconds !== null)).toBe(true);
    expect(await sources()).toEqual(new Set(['engine']));
    expect((await setup())!.error).toBeNull();
  });

  it('keeps the estimate, marked, for cells without an answer', async () => {
    server.fault = 'null cells';
    await fillTravel(parts(), service(kind), [HOUSE]);
    expect((await cells()).some(([, , seconds]) => seconds === null)).toBe(true);
    expect(await sources()).toContain('estimate');
  });

  it('a place that no road leads to costs no other place its answer', async () => {
    server.fault = 'no road';
    await fillTravel(parts(), service(kind), [HOUSE]);
    expect((await cells()).every(([, , seconds]) => seconds === null)).toBe(true);
    expect((await setup())!.error).toBeNull();
    expect(await sources()).toEqual(new Set(['estimate']));
  });

  it.each<[Fault]>([['status 500'], ['no json'], ['wrong size'], ['redirect'], ['endless']])(
    '%s: the estimate stays and the fault is told',
    async (fault) => {
      await fillTravel(
        parts(),
        service(kind),
        [PORT_ANSEL].map(([lat, lon]) => ({ lat, lon })),
      );
      const before = (await cells()).length;
      server.fault = fault;
      expect(await fillTravel(parts(), service(kind), [HOUSE])).toBe(0);
      expect((await setup())!.error).not.toBeNull();
      expect((await cells()).length).toBe(before);
      const page = (await api.send('office', 'GET', '/api/travel')).body;
      expect(page.service).toMatchObject({ name: kind, lastError: (await setup())!.error });
      server.fault = 'none';
      expect(await fillTravel(parts(), service(kind), [HOUSE])).toBeGreaterThan(0);
      expect((await setup())!.error).toBeNull();
    },
  );

  it('asks anew when the service answers from other roads', async () => {
    await fillTravel(parts(), service(kind), [HOUSE]);
    server.version = '2026-11-01';
    expect(await fillTravel(parts(), service(kind), [HOUSE])).toBeGreaterThan(0);
    expect((await setup())!.engine).toMatch(/2026-11-01/);
  });
});

describe('what is asked', () => {
  it('is what is booked, and the houses of one day among each other', async () => {
    const startsAt = '2026-05-14T14:00:00Z';
    await bookedVisit(api, { startsAt, endsAt: '2026-05-14T17:00:00Z', first: CAST.anna.id, second: CAST.ben.id });
    const { visitId } = await bookedVisit(api, { startsAt, endsAt: '2026-05-14T17:00:00Z', first: CAST.cora.id, second: CAST.dan.id });
    await api.database.transaction(async ({ db }) => {
      const { jobId } = await db.visit.findUniqueOrThrow({ where: { id: visitId } });
      const { propertyId } = await db.job.findUniqueOrThrow({ where: { id: jobId } });
      await db.property.update({ where: { id: propertyId }, data: { ...HOUSE } });
    });
    await fillTravel(parts(), service());
    const week = (await api.send('office', 'GET', '/api/week?from=2026-05-11')).body;
    const legs = week.people.flatMap((p: { days: { legs: { minutes: number; source: string }[] }[] }) => p.days.flatMap((day) => day.legs));
    expect(week.roadService).toBe(true);
    expect(new Set(legs.filter(({ minutes }: { minutes: number }) => minutes > 0).map(({ source }: { source: string }) => source))).toEqual(
      new Set(['engine']),
    );
    const [lat, lon] = BIRCHMERE;
    expect((await cells()).filter(([a, b]) => a === placeKey({ lat, lon }) && b === placeKey(HOUSE))).toHaveLength(1);
  });
  it('is nothing any more when the service is taken out of the settings', async () => {
    await fillTravel(parts(), service(), [HOUSE]);
    expect(await fillTravel(parts(), null)).toBe(0);
    expect((await setup())!.engine).toBeNull();
    expect(await sources()).toEqual(new Set(['estimate']));
    expect((await api.send('office', 'GET', '/api/travel')).body.service).toBeNull();
  });
});

describe('a search while the service is silent', () => {
  it('does not wait for it', async () => {
    server.fault = 'silent';
    const app = await buildApp(servicesOf(api, settings('osrm')));
    const cookie = String(
      (await app.inject({ method: 'POST', url: '/api/session', payload: { email: CAST.office.email, password: 'a long test password' } }))
        .headers['set-cookie'],
    ).split(';')[0]!;
    const body = { place: { lat: 44.12, lon: -88.61 }, facts: {}, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 5 };
    const answered = app.inject({ method: 'POST', url: '/api/starts', payload: body, headers: { cookie } });
    expect((await answered).statusCode).toBe(200);
    await expect.poll(() => server.asked.length, { timeout: 5000 }).toBeGreaterThan(0);
    expect((await answered).json().options[0].travelSource).toBe('estimate');
    await expect.poll(async () => (await setup())?.error, { timeout: 5000 }).toBe('no answer within 2 seconds');
    await app.close();
  });
});
