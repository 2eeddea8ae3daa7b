// Driving times over HTTP: drives that are recorded and corrected, what is said by hand, fits, places by ZIP code and by hand.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { FACTS, holdBody, PLACE } from '../../support/booking.ts';
import { BIRCHMERE, CAST, PORT_ANSEL } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { bookedVisit } from '../../support/visits.ts';

const api = testApi();
withStarter(api);
const rows = <T>(sql: string, params: unknown[] = []) => api.database.read.rows<T>(sql, params);
const write = (sql: string) => api.database.transaction(async ({ db }) => void (await db.$executeRawUnsafe(sql)));
const page = async () => (await api.send('office', 'GET', '/api/travel')).body;
const starts = async (place = PLACE) =>
  (
    await api.send('office', 'POST', '/api/starts', {
      body: { place, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 60 },
      once: true,
    })
  ).body;
const [lat, lon] = PORT_ANSEL;
const atPortAnsel = { lat, lon };

describe('a drive to a visit', () => {
  let visitId: string;
  const mark = (who: 'anna' | 'ben' | 'cora' | 'office', body: object) =>
    api.send(who, 'POST', `/api/visits/${visitId}/drives`, { body: { id: randomUUID(), personId: CAST.anna.id, ...body } });
  const marks = () =>
    rows<{ kind: string; at: Date; lat: number | null }>(
      'SELECT kind, at, from_lat AS lat FROM drive_mark WHERE visit_id = $1::uuid ORDER BY recorded_at, at',
      [visitId],
    );
  beforeAll(async () => {
    ({ visitId } = await bookedVisit(api, {
      startsAt: '2026-05-12T14:00:00Z',
      endsAt: '2026-05-12T17:00:00Z',
      first: CAST.anna.id,
      second: CAST.ben.id,
    }));
  });

  it('is recorded by the person, from the base, and shown on the day', async () => {
    api.clock.now = new Date('2026-05-12T15:00:00Z');
    expect(await mark('anna', { kind: 'set_out', at: '2026-05-12T13:30:00Z' })).toMatchObject({ status: 201 });
    expect(await mark('anna', { kind: 'arrived', at: '2026-05-12T13:55:00Z' })).toMatchObject({ status: 201 });
    expect((await marks()).map(({ kind, lat: from }) => [kind, from])).toEqual([
      ['set_out', BIRCHMERE[0]],
      ['arrived', null],
    ]);
    const day = (await api.send('anna', 'GET', '/api/my-day')).body;
    expect(day.visits.find((v: { id: string }) => v.id === visitId).drive).toEqual({
      setOutAt: '2026-05-12T13:30:00.000Z',
      arrivedAt: '2026-05-12T13:55:00.000Z',
      zoneBeyond: null,
    });
  });
  it('is corrected by a later record, by the person or the office; the first stays on file', async () => {
    api.clock.now = new Date('2026-05-12T15:00:01Z');
    expect(await mark('office', { kind: 'set_out', at: '2026-05-12T13:20:00Z' })).toMatchObject({ status: 201 });
    expect(await marks()).toHaveLength(3);
    const [audit] = await rows<{ details: object }>(
      `SELECT details FROM audit_row WHERE operation = 'schedule.mark-drive' ORDER BY recorded_at DESC LIMIT 1`,
    );
    expect(audit!.details).toMatchObject({ mark: 'set_out', insteadOf: '2026-05-12T13:30:00.000Z' });
  });
  it('cannot be changed or taken away in the database', async () => {
    await expect(write('DELETE FROM drive_mark')).rejects.toThrow();
    await expect(write(`UPDATE drive_mark SET at = at + interval '1 hour'`)).rejects.toThrow();
  });
  it.each([
    ['a time to come', { kind: 'arrived', at: '2026-05-12T18:00:00Z' }, 422, 'drive-ahead'],
    ['arriving before setting out', { kind: 'arrived', at: '2026-05-12T13:00:00Z' }, 422, 'drive-backwards'],
    ['another day', { kind: 'set_out', at: '2026-05-10T13:00:00Z' }, 422, 'drive-of-another-day'],
  ])('refuses %s', async (_, body, status, code) => expect(await mark('anna', body)).toMatchObject({ status, body: { code } }));
  it('is nobody else’s to record', async () => {
    expect(await mark('ben', { kind: 'arrived', at: '2026-05-12T13:50:00Z' })).toMatchObject({
      status: 403,
      body: { code: 'not-on-this-visit' },
    });
    expect(await mark('cora', { personId: CAST.cora.id, kind: 'arrived', at: '2026-05-12T13:50:00Z' })).toMatchObject({ status: 403 });
  });
});

describe('a visit beyond a zone border', () => {
  it('says on the day which zone the house has', async () => {
    const { visitId } = await bookedVisit(api, {
      startsAt: '2026-05-12T20:00:00Z',
      endsAt: '2026-05-12T21:00:00Z',
      first: CAST.cora.id,
      second: CAST.dan.id,
    });
    await write(
      `UPDATE property SET lat = 44.25, lon = -85.9 WHERE id = (SELECT j.property_id FROM job j JOIN visit v ON v.job_id = j.id WHERE v.id = '${visitId}')`,
    );
    const day = (await api.send('cora', 'GET', '/api/my-day')).body;
    expect(day.visits).toMatchObject([{ id: visitId, drive: { zoneBeyond: 'America/Detroit' } }]);
    await write(`UPDATE visit SET state = 'cancelled', live = false WHERE id = '${visitId}'`);
  });
});

describe('what is said by hand', () => {
  const area = (name: string, [at, on]: [number, number]) => ({ name, lat: at, lon: on, radiusKm: 3 });
  const bridge = () => ({
    id: randomUUID(),
    kind: 'between',
    a: area('Birchmere', BIRCHMERE),
    b: area('Port Ansel', PORT_ANSEL),
    minutes: 55,
    reason: 'The bridge is closed',
  });

  it('counts in the next search, and where it comes from is told', async () => {
    const before = await starts(atPortAnsel);
    expect(before).toMatchObject({ roadService: false, zoneBeyond: null });
    const sources = (all: typeof before) => new Set(all.options.map((o: { travelSource: string }) => o.travelSource));
    expect(sources(before)).toEqual(new Set([null, 'estimate']));
    const body = bridge();
    expect(await api.send('office', 'POST', '/api/travel/rules', { body })).toMatchObject({ status: 201 });
    expect((await page()).rules).toMatchObject([{ id: body.id, minutes: 55, by: 'Otto Office', reason: 'The bridge is closed' }]);
    const after = await starts(atPortAnsel);
    expect(sources(after)).toContain('manual');
    expect(after.options.flatMap((o: { parts: { addedDriving: number[] } }) => o.parts.addedDriving)).toContain(110);
    expect(await api.send('office', 'DELETE', `/api/travel/rules/${body.id}`)).toMatchObject({ status: 200 });
    expect((await starts(atPortAnsel)).options).toEqual(before.options);
    expect(await api.send('office', 'DELETE', `/api/travel/rules/${body.id}`)).toMatchObject({
      status: 409,
      body: { code: 'travel-rule-ended' },
    });
  });
  it.each([
    ['0, 0', () => ({ ...bridge(), a: area('Nowhere', [0, 0]) }), 'place-zero'],
    ['one place twice', () => ({ ...bridge(), b: area('Birchmere', BIRCHMERE) }), 'travel-rule-one-place'],
    ['no minutes', () => ({ ...bridge(), minutes: 0 }), 'not-valid'],
    ['no reason', () => ({ ...bridge(), reason: ' ' }), 'not-valid'],
  ])('refuses %s', async (_, body, code) => {
    const answer = await api.send('office', 'POST', '/api/travel/rules', { body: body() });
    expect([400, 422]).toContain(answer.status);
    expect(answer.body.code).toBe(code);
  });
  it('is not for inspectors', async () =>
    expect((await api.send('anna', 'POST', '/api/travel/rules', { body: bridge() })).status).toBe(403));
});

describe('a fit to the recorded drives', () => {
  const fit = async () => {
    const id = randomUUID();
    expect(await api.send('office', 'POST', '/api/travel/fits', { body: { id } })).toMatchObject({ status: 201 });
    return (await page()).fits.find((f: { id: string }) => f.id === id);
  };

  it('leaves the speeds alone while there are few drives, and houses whose exact place is not known', async () => {
    expect(await fit()).toMatchObject({ used: 0, leftOut: 0 });
    await write(`UPDATE property SET place_by = 'exact', lat = ${lat}, lon = ${lon} WHERE id IN (SELECT property_id FROM job)`);
    expect(await fit()).toMatchObject({ used: 1, leftOut: 0 });
  });

  it('finds what 25 drives say, is used when somebody says so, and can be taken back', async () => {
    for (let day = 1; day <= 25; day++) {
      const startsAt = new Date(Date.UTC(2026, 2, day, 15));
      const { visitId } = await bookedVisit(api, {
        startsAt: startsAt.toISOString(),
        endsAt: new Date(startsAt.getTime() + 3_600_000).toISOString(),
        first: CAST.anna.id,
        second: CAST.ben.id,
        state: 'done',
      });
      await api.database.transaction(async ({ db }) => {
        const mark = (kind: string, minutes: number) => ({
          id: randomUUID(),
          visitId,
          personId: CAST.anna.id,
          kind,
          at: new Date(startsAt.getTime() - minutes * 60_000),
          recordedBy: CAST.anna.id,
          recordedAt: startsAt,
        });
        await db.driveMark.createMany({
          data: [{ ...mark('set_out', 90), fromLat: BIRCHMERE[0], fromLon: BIRCHMERE[1] }, mark('arrived', 15)],
        });
      });
    }
    await write(`UPDATE property SET place_by = 'exact', lat = ${lat}, lon = ${lon} WHERE id IN (SELECT property_id FROM job)`);
    const found = await fit();
    expect(found).toMatchObject({ used: 26, leftOut: 0, factors: [{ a: 'Birchmere', b: 'Port Ansel', drives: 26 }] });
    expect(found.bands[3]).toMatchObject({ upToKm: 25, drives: 26, fitted: true, standardKmh: 52 });
    expect(found.bands[3].kmh).toBeLessThan(30);
    expect(found.missAfter).toBeLessThan(found.missBefore);
    const use = (version: number, fitId: string | null) =>
      api.send('office', 'PUT', '/api/travel/use', { version, body: { fitId, follow: false } });
    const longest = async () =>
      Math.max(...(await starts(atPortAnsel)).options.flatMap((o: { parts: { addedDriving: number[] } }) => o.parts.addedDriving));
    const before = await longest();
    expect(await use(0, found.id)).toMatchObject({ status: 200, body: { version: 1 } });
    expect((await page()).inUse.id).toBe(found.id);
    expect(await longest()).toBeGreaterThan(before + 20);
    expect(await use(0, null)).toMatchObject({ status: 412, body: { code: 'changed-meanwhile' } });
    expect(await use(1, randomUUID())).toMatchObject({ status: 404 });
    expect(await use(1, null)).toMatchObject({ status: 200, body: { version: 2 } });
    expect(await longest()).toBe(before);
  });
  it('the lead may fit but not choose', async () =>
    expect((await api.send('lead', 'PUT', '/api/travel/use', { version: 2, body: { fitId: null, follow: true } })).status).toBe(403));
});

describe('the place of a house', () => {
  const place = (query: string) => api.send('office', 'GET', `/api/places?${query}`);

  it('comes from the town, from a ZIP code that is none of the firm’s towns, or from neither', async () => {
    const [town] = await rows<{ name: string; zip: string; lat: number }>('SELECT name, zip, lat FROM town ORDER BY name LIMIT 1');
    expect(await place(`town=${town!.name}`)).toMatchObject({ status: 200, body: { placeBy: 'town', lat: town!.lat } });
    expect(await place(`town=Elsewhere&zip=${town!.zip}`)).toMatchObject({ body: { placeBy: 'town', lat: town!.lat } });
    expect(await place('town=Elsewhere&zip=98101')).toMatchObject({
      body: { placeBy: 'zip', lat: 47.6114, lon: -122.3305, zip: '98101', name: 'Seattle, WA' },
    });
    expect(await place('town=Elsewhere&zip=00000')).toMatchObject({ status: 422, body: { code: 'zip-not-known' } });
    expect(await place('town=Elsewhere&zip=9810')).toMatchObject({ status: 422, body: { code: 'not-valid' } });
  });
  it('is kept with the booking, and can be set exactly; who and what was before stays in the audit trail', async () => {
    const middle = (await place('town=Elsewhere&zip=54904')).body;
    const { options } = await starts({ lat: middle.lat, lon: middle.lon });
    const id = randomUUID();
    const body = holdBody(options[0], { property: { id, address: '9 Harbor Lane', town: 'Elsewhere', zip: '54904' } });
    const held = await api.send('office', 'POST', '/api/jobs', { body });
    expect(held.status, JSON.stringify(held.body)).toBe(201);
    const job = async () => (await api.send('office', 'GET', `/api/jobs/${held.body.id}`)).body;
    expect((await job()).property).toMatchObject({ placeBy: 'zip', zip: '54904', version: 1, zoneBeyond: null });
    const set = (version: number, at: object) => api.send('office', 'PUT', `/api/properties/${id}/place`, { version, body: at });
    expect(await set(1, { lat: 0, lon: 0 })).toMatchObject({ status: 422, body: { code: 'place-zero' } });
    expect(await set(7, { lat: 44.04, lon: -88.55 })).toMatchObject({ status: 412, body: { code: 'changed-meanwhile' } });
    expect(await set(1, { lat: 144, lon: -88.55 })).toMatchObject({ status: 422, body: { code: 'not-valid' } });
    expect(await set(1, { lat: 44.04, lon: -88.55 })).toMatchObject({ status: 200, body: { version: 2, warnings: [] } });
    expect(await set(2, { lat: 44.04, lon: -88.55 })).toMatchObject({ status: 422, body: { code: 'nothing-changed' } });
    expect((await job()).property).toMatchObject({ placeBy: 'exact', lat: 44.04, version: 2 });
    const [audit] = await rows<{ details: object; actor: string }>(
      `SELECT details, actor_id::text AS actor FROM audit_row WHERE operation = 'jobs.set-place' ORDER BY id DESC LIMIT 1`,
    );
    expect(audit).toMatchObject({ actor: CAST.office.id, details: { placed: 'exact', placedBefore: 'zip' } });
    const far = await set(2, { lat: 47.61, lon: -122.33 });
    expect(far.body.warnings.map((w: { code: string }) => w.code)).toEqual(['place-far', 'visit-hit']);
    expect(far.body.warnings[1].text).toMatch(/^The visit of job \d+ on .* stays booked but no longer fits: /);
    expect((await job()).property.zoneBeyond).toBe('America/Los_Angeles');
    expect((await starts({ lat: 47.61, lon: -122.33 })).zoneBeyond).toBe('America/Los_Angeles');
  });
  it('becomes exact when somebody who books the house again says it', async () => {
    const property = { id: randomUUID(), address: '11 Harbor Lane', town: 'Birchmere' };
    const book = async (more: object, at: { lat: number; lon: number }) => {
      const { options } = await starts(at);
      const answer = await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], { property: { ...property, ...more } }) });
      expect(answer.status, JSON.stringify(answer.body)).toBe(201);
      return (await api.send('office', 'GET', `/api/jobs/${answer.body.id}`)).body.property;
    };
    expect(await book({}, PLACE)).toMatchObject({ placeBy: 'town', version: 1 });
    const exact = { lat: 44.035, lon: -88.545 };
    expect(await book({ ...exact, id: randomUUID() }, exact)).toMatchObject({ ...exact, id: property.id, placeBy: 'exact', version: 2 });
    expect(await book({ lat: 44.01, lon: -88.5, id: randomUUID() }, exact)).toMatchObject({ ...exact, version: 2 });
  });
});
