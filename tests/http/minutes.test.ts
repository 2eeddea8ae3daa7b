// How long things take and what an ending costs, over HTTP: minutes by rule and by kind of visit, charges in dollars.
import { describe, expect, it } from 'vitest';
import { FACTS, holdBody, PLACE, startsOf } from '../support/booking.ts';
import { CAST, type CastName } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

async function booked(): Promise<{ id: string; visitId: string; pair: string[] }> {
  const [start] = (await startsOf(api)).options;
  const held = await api.send('office', 'POST', '/api/jobs', { body: holdBody(start!) });
  expect(held.status, JSON.stringify(held.body)).toBe(201);
  await api.send('office', 'POST', `/api/jobs/${held.body.id}/confirmation`);
  return { id: held.body.id, visitId: held.body.visitId, pair: [held.body.first, held.body.second] };
}

describe('minutes', () => {
  it('are set by the owner for what is booked from then on, rule by rule and kind by kind', async () => {
    const before = (await api.send('anna', 'GET', '/api/minutes')).body;
    expect(before.rules.find(({ key }: { key: string }) => key === 'radon')).toMatchObject({
      minutes: 15,
      when: 'radon measurement ordered',
      each: null,
    });
    const { id } = await booked();
    const change = (who: CastName, minutes: object, version = before.version) =>
      api.send(who, 'PUT', '/api/minutes', { version, body: { minutes } });
    expect((await change('office', { begin: 40 })).status).toBe(403);
    expect((await change('owner', { begin: 721 })).status).toBe(422);
    expect(await change('owner', { begin: 10 })).toMatchObject({ status: 422, body: { code: 'nothing-changed' } });
    expect(await change('owner', { begin: 40 })).toMatchObject({ status: 200, body: { version: before.version + 1 } });
    expect((await change('owner', { begin: 50 })).status).toBe(412);
    api.clock.now = new Date(api.clock.now.getTime() + 1_000);
    const quote = await api.send('office', 'POST', '/api/quotes', {
      once: true,
      body: { facts: FACTS, services: ['inspection'], day: '2026-05-14', place: PLACE },
    });
    expect(quote.body.duration.lines[0]).toMatchObject({ rule: 'begin', minutes: 40 });
    const kept = await api.send('office', 'POST', `/api/jobs/${id}/facts/preview`, { once: true, body: { facts: FACTS } });
    expect(kept.body.duration[0]).toMatchObject({ minutes: 10 });
    const kind = before.kinds.find(({ key }: { key: string }) => key === 'reinspection');
    const set = (version: number, minutes: number, key = 'reinspection') =>
      api.send('owner', 'PUT', `/api/visit-kinds/${key}`, { version, body: { minutes, reportMinutes: 45 } });
    expect((await set(kind.version, 4)).status).toBe(422);
    expect((await set(1, 90, 'inspection')).status).toBe(404);
    expect(await set(kind.version, 90)).toMatchObject({ status: 200, body: { version: kind.version + 1 } });
    expect((await set(kind.version, 95)).status).toBe(412);
    expect((await api.send('office', 'GET', '/api/minutes')).body.kinds).toContainEqual({
      ...kind,
      minutes: 90,
      reportMinutes: 45,
      version: kind.version + 1,
    });
  });
});

describe('the ending of a visit', () => {
  it('says what the rule charges in dollars, for whoever records it', async () => {
    const { visitId, pair } = await booked();
    const who = (Object.entries(CAST) as [CastName, { id: string }][]).find(([, one]) => one.id === pair[0])![0];
    const { body } = await api.send(who, 'GET', `/api/visits/${visitId}/ending`);
    expect(body.feeCents).toBe(46_500);
    expect(body.charges.find(({ kind }: { kind: string }) => kind === 'nobody_came')).toEqual({
      kind: 'nobody_came',
      percent: 50,
      cents: 23_250,
    });
  });
});
