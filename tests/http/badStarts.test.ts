// Questions about starts that make no sense, over HTTP: a clear refusal or an answer with its reason, never a failure inside.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const ASK = { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 2, limit: 5 };
const ask = (more: object) => api.send('office', 'POST', '/api/starts', { body: { ...ASK, ...more }, once: true });

describe('asking for starts', () => {
  it.each([
    ['a window in the past', { fromDay: '2026-05-04' }, 'is past.'],
    ['the place 0, 0', { place: { lat: 0, lon: 0 } }, 'The property has no place on the map yet.'],
    ['hours that end before they begin', { earliest: 900, latestEnd: 600 }, 'does not fit between'],
    ['a house too large for a day', { facts: { ...FACTS, livingArea: 20_000 } }, 'The visit must take between'],
    ['a weekend', { fromDay: '2026-05-16' }, 'Nobody works on that day.'],
  ])('%s is answered with the reason', async (_, more, reason) => {
    const answer = await ask(more);
    expect(answer.status, JSON.stringify(answer.body)).toBe(200);
    expect(answer.body.options).toEqual([]);
    expect(answer.body.blockedDays.map(({ reasons }: { reasons: string[] }) => reasons.join(' ')).join(' ')).toContain(reason);
  });
  it.each([
    ['a place beyond the poles', { place: { lat: 91, lon: 0 } }],
    ['no place', { place: null }],
    ['no days', { days: 0 }],
    ['more days than eight weeks', { days: 57 }],
    ['no number of starts', { limit: 0 }],
    ['a day that is none', { fromDay: '2026-02-30' }],
    ['a minute beyond the day', { earliest: 1441 }],
    ['a pair of one', { pair: [CAST.anna.id] }],
    ['a provider who is no id', { providers: [{ service: 'septic', providerId: 'x' }] }],
  ])('%s is refused at its field', async (_, more) => {
    const answer = await ask(more);
    expect(answer.status).toBe(422);
    expect(answer.body.errors.length).toBeGreaterThan(0);
  });
  it('a kind of visit that is none is refused, and a provider who is none has nobody to send', async () => {
    expect((await ask({ visitKind: 'picnic' })).body.code).toBe('visit-kind-not-known');
    const none = await ask({
      services: ['inspection', 'septic'],
      facts: { ...FACTS, waste: 'septic' },
      providers: [{ service: 'septic', providerId: randomUUID() }],
    });
    expect(none.body.blockedDays[0].reasons[0]).toContain('no outside provider is on file');
  });
});

describe('holding a time', () => {
  it('in the past, with somebody unknown, or for one person alone is refused', async () => {
    const [option] = (await ask({})).body.options;
    const past = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...option, startsAt: '2026-05-04T14:00:00.000Z' }) });
    expect(past).toMatchObject({ status: 422, body: { code: 'start-is-past' } });
    const stranger = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...option, second: randomUUID() }) });
    expect(stranger.status).toBeGreaterThanOrEqual(400);
    expect(stranger.body.code).not.toBe('inside');
    const alone = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...option, second: null }) });
    expect(alone).toMatchObject({ status: 409, body: { code: 'start-not-possible' } });
  });
});
