// Tag: time.
// Education hours, miles and the private calendar, over HTTP.
import { createHash, randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addEducation, readCertificate } from '@backsight/usecases/people/education';
import { as, CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const anna = `/api/people/${CAST.anna.id}`;
const directory = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-files-'));
afterAll(() => fs.rmSync(directory, { recursive: true, force: true }));
const PNG = Buffer.from('89504e470d0a1a0a0000', 'hex');

beforeAll(async () => {
  for (const hour of [14, 18])
    await bookedVisit(api, {
      startsAt: `2026-05-11T${hour}:00:00Z`,
      endsAt: `2026-05-11T${hour + 2}:00:00Z`,
      first: CAST.anna.id,
      second: hour === 14 ? CAST.tess.id : CAST.ben.id,
      state: 'done',
    });
});

describe('education hours', () => {
  const entry = (more: object = {}) => ({
    id: randomUUID(),
    category: 'Structure',
    title: 'Frost and foundations',
    onDay: '2026-02-03',
    minutes: 360,
    file: null as { name: string; base64: string } | null,
    ...more,
  });
  it('are not asked of people without a license', async () => {
    expect((await api.send('owner', 'GET', `/api/people/${CAST.office.id}/education`)).body.standing).toBeNull();
  });
  it('are put on file by the person, summed against the need of the rule pack, and withdrawn', async () => {
    const body = entry();
    expect((await api.send('anna', 'POST', `${anna}/education`, { body })).status).toBe(201);
    const { standing, entries, sources } = (await api.send('anna', 'GET', `${anna}/education`)).body;
    expect(standing).toMatchObject({ untilDay: '2026-12-14', needMinutes: 2400, doneMinutes: 360, missingMinutes: 2040 });
    expect(sources.join()).toContain('from memory');
    expect(entries).toMatchObject([{ id: body.id, fileName: null }]);
    expect((await api.send('anna', 'GET', `/api/education/${body.id}/certificate`)).status).toBe(404);
    expect((await api.send('anna', 'DELETE', `/api/education/${body.id}`)).status).toBe(200);
    expect((await api.send('anna', 'GET', `${anna}/education`)).body.standing.doneMinutes).toBe(0);
    expect((await api.send('anna', 'DELETE', `/api/education/${body.id}`)).status).toBe(404);
  });
  it('keep their certificate, which colleagues do not get', async () => {
    const file = { name: 'certificate.png', base64: PNG.toString('base64') };
    const id = randomUUID();
    const added = await api.runner.run(addEducation, { ...entry({ id, file }), personId: CAST.anna.id, directory }, { actor: as('anna') });
    expect(added.ok).toBe(true);
    const kept = await readCertificate(api.database.read, { id, actor: as('lead'), directory });
    expect(kept).toMatchObject({ ok: true, value: { name: 'certificate.png', mediaType: 'image/png', bytes: PNG } });
    expect(await readCertificate(api.database.read, { id, actor: as('ben'), directory })).toMatchObject({ ok: false, code: 'not-allowed' });
  });
  it.each([
    ['a program', entry({ file: { name: 'x.exe', base64: Buffer.from('MZ').toString('base64') } }), 'certificate-kind'],
    ['hours to come', entry({ onDay: '2026-05-13' }), 'education-in-future'],
  ])('are refused: %s', async (_, body, code) =>
    expect((await api.send('anna', 'POST', `${anna}/education`, { body })).body.code).toBe(code),
  );
  it('are nobody else’s to see or to add, but the lead’s', async () => {
    expect((await api.send('ben', 'GET', `${anna}/education`)).status).toBe(403);
    expect((await api.send('ben', 'POST', `${anna}/education`, { body: entry() })).status).toBe(403);
    expect((await api.send('lead', 'GET', `${anna}/education`)).status).toBe(200);
  });
  it('count inspections under supervision for a trainee alone', async () => {
    expect((await api.send('lead', 'GET', `/api/people/${CAST.tess.id}/education`)).body.supervised).toEqual({ done: 1, need: null });
    expect((await api.send('anna', 'GET', `${anna}/education`)).body.supervised).toBeNull();
  });
});

describe('miles', () => {
  const body = (more: object = {}) => ({
    id: randomUUID(),
    day: '2026-05-11',
    tenths: 42,
    odometerStart: null,
    odometerEnd: null,
    vehicleId: null,
    note: '',
    ...more,
  });
  const list = async (who: 'anna' | 'office', query = '') =>
    (await api.send(who, 'GET', `/api/mileage?from=2026-05-11&to=2026-05-11${query}`)).body;
  it('are planned from the visits, entered by the person, corrected with the first row kept, and repaid by the rate', async () => {
    expect((await list('anna', `&personId=${CAST.anna.id}`)).days).toMatchObject([
      { plannedTenths: 0, entered: null, differenceTenths: null, cents: 0 },
    ]);
    expect((await api.send('anna', 'POST', `${anna}/mileage`, { body: body() })).body.tenths).toBe(42);
    const second = await api.send('anna', 'POST', `${anna}/mileage`, {
      body: body({ tenths: null, odometerStart: 100, odometerEnd: 112 }),
    });
    expect(second.body.tenths).toBe(120);
    const office = await list('office');
    expect(office.rateTenthCents).toBe(700);
    expect(office.days.map(({ name }: { name: string }) => name)).toEqual(['Anna Inspector', 'Ben Inspector', 'Tess Trainee']);
    expect(office.days[0]).toMatchObject({ differenceTenths: 120, cents: 840, entered: { odometerStart: 100, odometerEnd: 112 } });
    const rows = await api.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM mileage_entry');
    expect(rows).toEqual([{ n: 2 }]);
  });
  it('leave as a table that no spreadsheet runs', async () => {
    await api.send('anna', 'POST', `${anna}/mileage`, { body: body({ tenths: 1015, note: '=HYPERLINK("x"), north' }) });
    const table = await api.send('office', 'GET', '/api/mileage.csv?from=2026-05-11&to=2026-05-12');
    expect(table.headers['content-type']).toMatch(/^text\/csv/);
    expect(String(table.body).split('\r\n')).toEqual([
      'Day,Person,Miles planned,Miles driven,Difference,Odometer start,Odometer end,Vehicle,Cents per mile,Amount USD,Note',
      `2026-05-11,Anna Inspector,0.0,101.5,101.5,,,,70.0,71.05,"'=HYPERLINK(""x""), north"`,
      '',
    ]);
  });
  it.each([
    ['of tomorrow', { day: '2026-05-13' }, 'mileage-in-future'],
    ['with half a reading', { tenths: null, odometerStart: 5 }, 'mileage-missing'],
    ['of a vehicle that is none', { vehicleId: randomUUID() }, 'not-a-vehicle'],
  ])('are refused %s', async (_, more, code) =>
    expect((await api.send('anna', 'POST', `${anna}/mileage`, { body: body(more) })).body.code).toBe(code),
  );
  it('of others are for those who decide; the rate is the owner’s', async () => {
    expect((await api.send('anna', 'GET', '/api/mileage?from=2026-05-11&to=2026-05-11')).status).toBe(403);
    expect((await api.send('ben', 'POST', `${anna}/mileage`, { body: body() })).status).toBe(403);
    expect((await api.send('office', 'PUT', '/api/mileage-rate', { body: { tenthCents: 725 } })).status).toBe(403);
    expect((await api.send('owner', 'PUT', '/api/mileage-rate', { body: { tenthCents: 725 } })).body).toEqual({ tenthCents: 725 });
    expect((await list('office')).rateTenthCents).toBe(725);
  });
});

describe('the private calendar', () => {
  const read = (address: string, headers: Record<string, string> = {}) => api.app().inject({ url: new URL(address).pathname, headers });
  it('shows where, when and with whom, nothing about clients; answers by tag; ends when it is opened anew or closed', async () => {
    expect((await api.send('anna', 'GET', '/api/me/calendar-feed')).body).toEqual({ since: null });
    const { address } = (await api.send('anna', 'PUT', '/api/me/calendar-feed')).body;
    const feed = await read(address);
    expect([feed.statusCode, feed.headers['content-type']]).toEqual([200, 'text/calendar; charset=utf-8; method=PUBLISH']);
    expect(feed.body.match(/BEGIN:VEVENT/g)).toHaveLength(2);
    expect(feed.body).toContain('DTSTART:20260511T140000Z\r\nDTEND:20260511T160000Z');
    expect(feed.body).toContain('SUMMARY:Inspection with Tess Trainee (first)');
    expect(feed.body).toMatch(/LOCATION:\d+ Shore Road\\, Birchmere 54901/);
    expect(feed.body).not.toMatch(/Client|920-555|\$/);
    expect((await read(address, { 'if-none-match': String(feed.headers.etag) })).statusCode).toBe(304);
    await bookedVisit(api, { startsAt: '2026-05-29T14:00:00Z', endsAt: '2026-05-29T16:00:00Z', first: CAST.anna.id, second: CAST.ben.id });
    const changed = await read(address, { 'if-none-match': String(feed.headers.etag) });
    expect([changed.statusCode, changed.body.match(/BEGIN:VEVENT/g)?.length]).toEqual([200, 3]);
    // A visit that changed has a higher SEQUENCE under the same UID (RFC 5545, 3.8.7.4).
    const sequences = async () => (await read(address)).body.match(/SEQUENCE:\d+/g)!.map((one) => Number(one.slice(9)));
    const before = await sequences();
    await api.database.transaction(({ db }) => db.visit.updateMany({ data: { version: { increment: 1 } } }));
    expect(await sequences()).toEqual(before.map((one) => one + 1));
    const again = (await api.send('anna', 'PUT', '/api/me/calendar-feed')).body.address as string;
    expect((await read(address)).statusCode).toBe(404);
    expect((await read(again)).statusCode).toBe(200);
    expect((await api.send('anna', 'DELETE', '/api/me/calendar-feed')).body).toEqual({ closed: true });
    expect((await read(again)).statusCode).toBe(404);
  });
  it('keeps the secret only as a digest, and shows an absence without its reason', async () => {
    const { address } = (await api.send('ben', 'PUT', '/api/me/calendar-feed')).body;
    const token = /calendar\/(.+)\.ics$/.exec(address)![1]!;
    const rows = await api.database.read.rows<{ hash: string }>('SELECT token_hash AS hash FROM calendar_feed WHERE revoked_at IS NULL');
    expect(rows).toEqual([{ hash: createHash('sha256').update(token).digest('hex') }]);
    await api.send('ben', 'POST', `/api/people/${CAST.ben.id}/absences`, {
      body: { id: randomUUID(), startsAt: '2026-06-01T12:00:00Z', endsAt: '2026-06-02T12:00:00Z', reason: 'surgery' },
    });
    const { body } = await read(address);
    expect(body).toContain('SUMMARY:Away (asked for)');
    expect(body).toContain('STATUS:TENTATIVE');
    expect(body).not.toContain('surgery');
  });
  it.each(['/calendar/x.ics', `/calendar/${'a'.repeat(43)}.ics`, `/calendar/${'a'.repeat(43)}`])('opens nothing at %s', async (url) => {
    expect((await api.app().inject({ url })).statusCode).toBe(404);
  });
});

describe('kept searches', () => {
  const search = (more: object = {}) => ({ id: randomUUID(), list: '/jobs', name: 'To chase', search: '?open=true', ...more });
  const keep = (who: 'anna' | 'ben', body: object) => api.send(who, 'POST', '/api/kept-searches', { body });
  it('are kept, renamed and deleted by whom they belong to, and seen by nobody else', async () => {
    const own = search();
    expect((await keep('anna', own)).status).toBe(201);
    expect((await keep('ben', search())).status).toBe(201);
    expect((await keep('anna', search())).body.code).toBe('search-name-taken');
    expect((await keep('anna', search({ list: '/callbacks' }))).status).toBe(201);
    for (const bad of [{ list: '//elsewhere.example' }, { search: 'open' }, { search: '?a b' }, { name: ' ' }])
      expect((await keep('anna', search(bad))).status).toBe(422);
    const at = `/api/kept-searches/${own.id}`;
    for (const [method, address, body] of [
      ['PUT', `${at}/name`, { name: 'Mine' }],
      ['DELETE', at, undefined],
    ] as const)
      expect((await api.send('ben', method, address, { body })).status).toBe(404);
    expect((await api.send('anna', 'PUT', `${at}/name`, { body: { name: 'Unsigned' } })).status).toBe(200);
    const seen = async () => (await api.send('anna', 'GET', '/api/kept-searches')).body.map(({ name }: { name: string }) => name);
    expect(await seen()).toEqual(['To chase', 'Unsigned']);
    expect((await api.send('anna', 'DELETE', at, { once: true })).status).toBe(200);
    expect(await seen()).toEqual(['To chase']);
  });
  it('are so many at most', async () => {
    await api.database.read.rows(
      `INSERT INTO kept_search (id, person_id, list, name, search, recorded_at) SELECT gen_random_uuid(), $1::uuid, '/kit', 'Number ' || n, '?q=' || n, $2::timestamptz FROM generate_series(1, 50 - (SELECT count(*)::int FROM kept_search WHERE person_id = $1::uuid)) n`,
      [CAST.ben.id, api.clock.now.toISOString()],
    );
    expect((await keep('ben', search({ name: 'One more' }))).body.code).toBe('searches-full');
  });
});
