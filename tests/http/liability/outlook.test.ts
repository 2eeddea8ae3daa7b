// Outlooks over HTTP: too little data is told, nothing is kept unless asked, and the same seed and instant give the same again.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import type { CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const read = (query = '', who: CastName = 'owner') => api.send(who, 'GET', `/api/liability/outlook${query}`);

it('is the owner’s alone', async () => {
  for (const who of ['lead', 'office', 'anna'] as const) {
    expect((await read('', who)).status).toBe(403);
    expect((await api.send(who, 'GET', '/api/liability/outlooks')).status).toBe(403);
  }
});
it('says what it cannot tell of a firm with one job, and shows no number in its place', async () => {
  api.clock.now = new Date('2026-04-28T15:00:00Z');
  await visited(api);
  api.clock.now = new Date('2026-05-12T15:00:00Z');
  const { status, body } = await read();
  expect(status, JSON.stringify(body)).toBe(200);
  expect(body).toMatchObject({ figures: [], quarters: [], from: '2026-05-11', until: '2028-05-08', seed: 1 });
  expect(body.because).toEqual([
    'Nothing can be estimated because only 1 jobs were inspected in the 52 weeks before; 30 are the fewest to go by.',
  ]);
});
it.each([
  ['?feePercent=abc', 422, 'feePercent'],
  ['?feePercent=900', 422, 'feePercent'],
  ['?seed=-1', 422, 'seed'],
  ['?fewerLeast=50&fewerMost=20', 422, 'fewerMost'],
  ['?stepMinutes=5', 422, 'stepKey'],
  ['?stepKey=nothing-of-the-kind', 404, undefined],
  ['?asOf=2031-01-01T00:00:00Z', 422, 'asOf'],
])('refuses %s', async (query, status, field) => {
  const answer = await read(query);
  expect(answer.status, JSON.stringify(answer.body)).toBe(status);
  if (field) expect(JSON.stringify(answer.body)).toContain(field);
});
it('keeps an estimate only on request, once by a name, figured by the service; and removes it', async () => {
  const { asOf, scenario } = (await read('?feePercent=5')).body;
  expect((await api.send('owner', 'GET', '/api/liability/outlooks')).body.items).toEqual([]);
  const keep = (name: string, more = {}) =>
    api.send('owner', 'POST', '/api/liability/outlooks', {
      once: true,
      body: { id: randomUUID(), name, ...scenario, seed: 4_294_967_295, asOf, ...more },
    });
  expect((await keep('Fees in spring', { result: {} })).status).toBe(422);
  const kept = await keep('Fees in spring');
  expect(kept.status, JSON.stringify(kept.body)).toBe(201);
  expect(await keep('Fees in spring')).toMatchObject({ status: 409, body: { code: 'outlook-name-taken' } });
  const { items } = (await api.send('owner', 'GET', '/api/liability/outlooks')).body;
  expect(items).toMatchObject([
    { name: 'Fees in spring', seed: 4_294_967_295, asOf, scenario, result: { because: [expect.stringContaining('only 1 jobs')] } },
  ]);
  const remove = () => api.send('owner', 'DELETE', `/api/liability/outlooks/${items[0].id}`);
  expect((await api.send('lead', 'DELETE', `/api/liability/outlooks/${items[0].id}`)).status).toBe(403);
  expect((await remove()).status).toBe(200);
  expect((await remove()).status).toBe(404);
  const trail = await api.database.read.rows(`SELECT operation FROM audit_row WHERE thing_kind = 'outlook' ORDER BY id`);
  expect(trail).toEqual([{ operation: 'liability.keep-outlook' }, { operation: 'liability.remove-outlook' }]);
});
