// Sizes of what is worn, lengths of ladders, whom a person may not be sent to, and the window told to a client, while booking.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CAST, OFFICE } from '../support/cast.ts';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
type Answer = {
  options: { startsAt: string; first: string; second: string; firstName: string; secondName: string }[];
  blockedDays: { reasons: string[] }[];
};
const starts = async (facts: object, more: object = {}): Promise<Answer> => {
  const ask = { place: PLACE, facts: { ...FACTS, ...facts }, services: ['inspection'], fromDay: '2026-05-18', days: 1, ...more };
  return (await api.send('office', 'POST', '/api/starts', { body: ask })).body;
};
const names = ({ options }: Answer) => new Set(options.flatMap(({ firstName, secondName }) => [firstName, secondName]));
const reasons = ({ blockedDays }: Answer) => blockedDays.flatMap(({ reasons: all }) => all).join(' ');
const sizes = (personId: string, size: string | null, who: 'office' | 'anna' = 'office') =>
  api.send(who, 'PUT', `/api/people/${personId}/sizes`, {
    body: { sizes: ['respirator', 'crawl_suit'].map((kind) => ({ kind, size })) },
  });
const CRAWL = { foundation: ['crawl_space'] };

describe('what is worn', () => {
  it('keeps out who has no size on file, only where it is needed', async () => {
    expect(names(await starts(CRAWL))).toContain(CAST.anna.name);
    expect((await sizes(CAST.anna.id, null)).status).toBe(200);
    expect(names(await starts(CRAWL))).not.toContain(CAST.anna.name);
    expect(names(await starts({ foundation: ['slab'] }))).toContain(CAST.anna.name);
    expect((await api.send('office', 'GET', `/api/people/${CAST.anna.id}/file`)).body.sizes).toContainEqual({
      kind: 'respirator',
      name: 'Respirator',
      size: null,
    });
    expect((await sizes(CAST.anna.id, 'M')).status).toBe(200);
    expect(names(await starts(CRAWL))).toContain(CAST.anna.name);
  });
  it('says which size is short', async () => {
    for (const one of Object.values(CAST)) await sizes(one.id, '2XL');
    expect(reasons(await starts(CRAWL))).toContain('No respirator');
    for (const serial of ['R-1', 'S-1'])
      await api.send('office', 'POST', '/api/kit', {
        body: {
          id: randomUUID(),
          officeId: OFFICE,
          kind: serial === 'R-1' ? 'respirator' : 'crawl_suit',
          serial,
          calibratedUntil: null,
          note: '',
          size: '2XL',
        },
      });
    const one = await starts(CRAWL);
    expect(one.options).toEqual([]);
    expect(reasons(one)).toContain('Only one respirator in size 2XL is free that day.');
    for (const [n, person] of Object.values(CAST).entries()) await sizes(person.id, n % 2 === 0 ? 'L' : 'M');
  });
  it.each([
    ['no size for what is worn', { kind: 'respirator' }, 'kit-size-missing'],
    ['a ladder by its length alone', { kind: 'ladder_28' }, 'kit-by-length'],
  ])('is not added with %s', async (_case, more, code) => {
    const body = { id: randomUUID(), officeId: OFFICE, serial: 'X-9', calibratedUntil: null, note: '', ...more };
    expect((await api.send('office', 'POST', '/api/kit', { body })).body.code).toBe(code);
  });
  it('has no size of a kind that is not worn, and is not set by an inspector', async () => {
    const body = { sizes: [{ kind: 'ladder', size: 'M' }] };
    expect((await api.send('office', 'PUT', `/api/people/${CAST.anna.id}/sizes`, { body })).body.code).toBe('kit-not-worn');
    expect((await sizes(CAST.anna.id, 'M', 'anna')).status).toBe(403);
  });
});

describe('a ladder', () => {
  it('too short for the house is not counted', async () => {
    const ladders = (await api.send('office', 'GET', '/api/kit')).body.items.filter(({ kind }: { kind: string }) => kind === 'ladder');
    for (const { id } of ladders) await api.send('office', 'PATCH', `/api/kit/${id}`, { body: { ladderFeet: 28 } });
    expect((await starts({ stories: 2 })).options).not.toEqual([]);
    const three = await starts({ stories: 3 });
    expect(three.options).toEqual([]);
    expect(reasons(three)).toContain('No extension ladder of 40 ft and more, for three stories is in service that day.');
    for (const { id } of ladders) await api.send('office', 'PATCH', `/api/kit/${id}`, { body: { ladderFeet: 40 } });
  });
});

describe('a caller on file', () => {
  it('is not offered who may not be sent to him', async () => {
    const [start] = (await starts({})).options;
    const held = await api.send('office', 'POST', '/api/jobs', { body: holdBody(start!) });
    expect(held.status).toBe(201);
    const partyId = (await api.send('office', 'GET', `/api/jobs/${held.body.id}`)).body.parties[0].partyId as string;
    const bar = { id: randomUUID(), kind: 'party', aboutId: partyId, reason: 'a quarrel' };
    expect((await api.send('owner', 'POST', `/api/people/${CAST.anna.id}/bars`, { body: bar })).status).toBe(201);
    const later = { fromDay: '2026-05-19' };
    expect(names(await starts({}, later))).toContain(CAST.anna.name);
    expect(names(await starts({}, { ...later, parties: [partyId] }))).not.toContain(CAST.anna.name);
  });
});

describe('the window told to the client', () => {
  const shift = (at: string, minutes: number) => new Date(Date.parse(at) + minutes * 60_000).toISOString();
  it('is kept with the visit from the hold on', async () => {
    const [start] = (await starts({}, { fromDay: '2026-05-20' })).options;
    const promised = { from: shift(start!.startsAt, -30), until: shift(start!.startsAt, 60) };
    const body = { ...holdBody(start!), id: randomUUID(), promised };
    const held = await api.send('office', 'POST', '/api/jobs', { body });
    expect(held.status).toBe(201);
    const { visits } = (await api.send('office', 'GET', `/api/jobs/${held.body.id}`)).body;
    expect(visits[0].promised).toEqual(promised);
    expect((await api.send('office', 'GET', `/api/visits/${visits[0].id}/kept`)).body.window).toEqual(promised);
  });
  it('holds the start', async () => {
    const [start] = (await starts({}, { fromDay: '2026-05-21' })).options;
    const promised = { from: shift(start!.startsAt, 15), until: shift(start!.startsAt, 60) };
    const body = { ...holdBody(start!), id: randomUUID(), promised };
    expect((await api.send('office', 'POST', '/api/jobs', { body })).body.code).toBe('visit-promise');
  });
});
