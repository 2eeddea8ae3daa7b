// Double looks over HTTP: the sample on a visit, figures on average and only when an owner asked for them.
import { expect, it } from 'vitest';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordAll, recordOf, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
const read = async (who: 'owner' | 'lead' = 'owner') => (await api.send(who, 'GET', '/api/double-looks')).body;
const change = (who: 'owner' | 'lead', oneIn: number, shown: boolean, version: number) =>
  api.send(who, 'PUT', '/api/double-looks/rules', { body: { doubleLookOneIn: oneIn, showAgreement: shown }, version });

let day = Date.parse('2026-05-12T15:00:00Z');

/** A visit from the start to the seal; at the foundation Ben sees movement first, and then what Anna saw. */
async function sealedVisit(): Promise<{ checks: number; because: string[] }> {
  day += 24 * 3_600_000;
  const id = await start(api, (await siteJob(api, { startsAt: new Date(day) })).visitId);
  const record = await recordOf(api, 'ben', id);
  const evidence = { kind: 'choice', option: 'movement' } as const;
  await enter(api, 'ben', id, [answer(stepOf(record, 'foundation-walls'), 'ben', { evidence })]);
  await recordAll(api, id);
  await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } });
  const sealed = await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: {} });
  expect(sealed.status, JSON.stringify(sealed.body)).toBe(201);
  const checked = record.steps.filter(({ partnerCheck }) => partnerCheck);
  return { checks: checked.length, because: checked.map(({ because }) => because).filter((why) => why.includes('looked at twice')) };
}

it('are off until an owner asks, are drawn by the visit, and are told on average from twenty answers on', async () => {
  const before = await read();
  expect(before).toMatchObject({ rules: { doubleLookOneIn: 0, showAgreement: false }, lines: null, all: null });
  expect((await api.send('anna', 'GET', '/api/double-looks')).status).toBe(403);
  expect((await change('lead', 1, true, before.rules.version)).status).toBe(403);
  expect((await change('owner', 101, true, before.rules.version)).status).toBe(422);
  const plain = await sealedVisit();
  expect(plain.because).toEqual([]);
  expect((await change('owner', 1, true, before.rules.version)).status).toBe(200);
  expect(await change('owner', 1, true, before.rules.version)).toMatchObject({ body: { code: 'changed-meanwhile' } });
  const few = await read('lead');
  expect(few.all).toMatchObject({ kappa: null, estimate: null });
  const double = await sealedVisit();
  expect(double.because.length).toBeGreaterThan(0);
  expect(double.checks).toBe(plain.checks + double.because.length);
  for (let more = 0; more < 6 && (await read()).all.pairs < 20; more++) await sealedVisit();
  const { lines, all } = await read();
  expect(all.pairs).toBeGreaterThanOrEqual(20);
  expect(all.looks.first).toBe(0);
  expect(all.looks.second).toBeGreaterThan(1);
  expect(all.observed).toBeCloseTo(1 - all.looks.second / all.pairs, 9);
  expect(all.estimate.total).toBe(all.looks.second); // Chapman: (0 + 1)(n + 1) / (0 + 1) - 1
  expect(lines.find(({ system }: { system: string }) => system === 'structure')).toMatchObject({ quarter: '2026 Q2', kappa: null });
  expect(JSON.stringify({ lines, all })).not.toContain('Anna');
});
