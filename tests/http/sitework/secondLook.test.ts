// The second look that was never made, over HTTP: what the service filled in for somebody is nobody's look.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import type { MemberRecord, NewEntry } from '@backsight/contract/sitework';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, does, enter, recordOf, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
const hours = (n: number): Date => new Date(new Date('2026-05-12T15:00:00Z').getTime() + n * 3_600_000);
const CHECK = 'foundation-walls';
const movement: Partial<NewEntry> = { evidence: { kind: 'choice', option: 'movement' }, note: 'a bulge in the north wall' };

/** A started visit, where Anna has looked at the foundation. */
async function lookedAtByAnna(startsAt: Date): Promise<{ id: string; jobId: string; record: MemberRecord }> {
  const { visitId, jobId } = await siteJob(api, { startsAt });
  const id = await start(api, visitId);
  const record = await recordOf(api, 'anna', id);
  await enter(api, 'anna', id, [answer(stepOf(record, CHECK), 'anna', movement)]);
  return { id, jobId, record };
}

const endEarly = (id: string) => api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'stopped_for_safety' } });
const at = <T extends { stepKey: string | null }>(list: readonly T[]): T[] => list.filter(({ stepKey }) => stepKey === CHECK);

it('a visit that ended before the second look is sealed with the one look, and the report says what was seen', async () => {
  const { id, jobId } = await lookedAtByAnna(hours(1));
  expect((await endEarly(id)).status).toBe(201);
  for (const who of ['anna', 'ben'] as const) {
    const record = await recordOf(api, who, id);
    expect(record.comparisons).toEqual([{ stepKey: CHECK, itemId: null, result: 'one_look' }]);
    expect(record.missing).toEqual([]);
  }
  expect((await api.send('ben', 'POST', `/api/records/${id}/seal`, { body: {} })).status).toBe(201);
  const sealed = (await api.send('lead', 'GET', `/api/records/${id}/sealed`)).body;
  expect(sealed.comparisons).toEqual([{ stepKey: CHECK, itemId: null, result: 'one_look' }]);
  const draft = { id: randomUUID(), completedOn: '2026-05-14', reportOn: '2026-05-14', defects: [] };
  expect((await api.send('anna', 'POST', `/api/jobs/${jobId}/reports`, { body: draft })).status).toBe(201);
  const { body } = (await api.send('anna', 'GET', `/api/jobs/${jobId}/reports`)).body.reports[0];
  expect(JSON.stringify(body.systems)).toContain('a bulge in the north wall');
  expect(JSON.stringify(body.systems)).not.toContain('visit ended before');
});

it('a second look that comes in after the visit ended early is compared as ever', async () => {
  const { id, record } = await lookedAtByAnna(hours(24));
  await endEarly(id);
  await enter(api, 'ben', id, [answer(stepOf(record, CHECK), 'ben')]);
  expect((await recordOf(api, 'ben', id)).comparisons).toEqual([{ stepKey: CHECK, itemId: null, result: 'differ' }]);
  expect((await recordOf(api, 'ben', id)).missing.map(({ kind }) => kind)).toEqual(['disagreement']);
});

it('a step that danger closed keeps the answer from who has not looked, until a look, or until the visit ends early', async () => {
  const seen = (id: string, who: CastName) => recordOf(api, who, id);
  for (const [day, opens] of [
    [2, 'a look'],
    [3, 'the end'],
  ] as const) {
    const { id, record } = await lookedAtByAnna(hours(day * 24));
    await does(api, 'anna', id, { do: 'danger', what: 'gas', house: 'told', called: false }, { house: 'Mrs. Prior' });
    const kept = await seen(id, 'ben');
    expect(JSON.stringify(kept)).not.toContain('a bulge');
    expect(at(kept.withheld)).toEqual([{ stepKey: CHECK, itemId: null }]);
    expect(at(kept.missing)).toMatchObject([{ kind: 'entry', person: CAST.ben.id }]);
    api.clock.now = new Date(api.clock.now.getTime() + 60_000);
    if (opens === 'a look') await enter(api, 'ben', id, [answer(stepOf(record, CHECK), 'ben')]);
    else await endEarly(id);
    const shown = await seen(id, 'ben');
    expect(JSON.stringify(shown)).toContain('a bulge');
    expect(shown.withheld).toEqual([]);
    expect(at(shown.comparisons)).toMatchObject([{ result: opens === 'a look' ? 'differ' : 'one_look' }]);
  }
});

it('an answer that comes in after a danger and an early end asks nobody for a second look', async () => {
  const { visitId } = await siteJob(api, { startsAt: hours(4 * 24) });
  const id = await start(api, visitId);
  const record = await recordOf(api, 'anna', id);
  await does(api, 'ben', id, { do: 'danger', what: 'gas', house: 'told', called: false }, { house: 'Mrs. Prior' });
  expect((await endEarly(id)).status).toBe(201);
  await enter(api, 'anna', id, [answer(stepOf(record, CHECK), 'anna', movement)]); // her phone had had no signal
  for (const who of ['anna', 'ben'] as const) {
    const shown = await recordOf(api, who, id);
    expect(shown.missing).toEqual([]);
    expect(at(shown.comparisons)).toMatchObject([{ result: 'one_look' }]);
  }
  await does(api, 'anna', id, { do: 'danger', what: 'gas', house: 'told', called: false }, { house: 'Mrs. Prior' });
  const filled = await api.database.read.rows(
    `SELECT FROM step_entry WHERE record_id = '${id}' AND step_key = '${CHECK}' AND value -> 'closedBy' IS NOT NULL`,
  );
  expect(filled).toHaveLength(2); // a danger that is told of after the end fills in nothing more
  expect((await api.send('ben', 'POST', `/api/records/${id}/seal`, { body: {} })).status).toBe(201);
});

it('a danger and the end within one millisecond leave one look', async () => {
  const { id } = await lookedAtByAnna(hours(5 * 24));
  await does(api, 'anna', id, { do: 'danger', what: 'gas', house: 'told', called: false }, { house: 'Mrs. Prior' });
  await endEarly(id);
  const shown = await recordOf(api, 'ben', id);
  expect(shown.missing).toEqual([]);
  expect(at(shown.comparisons)).toMatchObject([{ result: 'one_look' }]);
});
