// Tag: time, any day.
// A record keeps the revision under which it was opened, although a newer one comes into force while the pair is at work.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { approveDrafts, closePeriod, openPeriods, saveDrafts, saveStepKeys, saveSteps } from '@backsight/store/procedures/save';
import { keepText } from '@backsight/store/text';
import { findInForce } from '@backsight/store/procedures';
import { GROUND_FAULT_STEPS_REVISED } from '../../../prisma/seed/procedures/groundFaultRevision.ts';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordOf, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);

/** Puts the revised ground-fault steps in force now. */
async function revise(): Promise<string> {
  const id = randomUUID();
  const at = api.clock.now;
  const old = (await findInForce(api.database.read, at)).find(({ procedureKey }) => procedureKey === 'electrical')!;
  const steps = [...old.steps.filter(({ key }) => key !== 'ground-fault-trip-reset'), ...GROUND_FAULT_STEPS_REVISED];
  await api.database.transaction(async (tx) => {
    await saveDrafts(tx, [
      {
        id,
        procedureId: old.procedureId,
        number: 2,
        reason: 'a freezer thawed',
        basedOnId: old.revisionId,
        authorId: CAST.lead.id,
        recordedAt: at,
      },
    ]);
    await saveStepKeys(
      tx,
      GROUND_FAULT_STEPS_REVISED.map(({ key, derivedFrom }) => ({ key, procedureId: old.procedureId, derivedFrom: derivedFrom ?? null })),
    );
    await saveSteps(tx, [{ revisionId: id, steps }]);
    const graceTextId = await keepText(tx, randomUUID(), 'People could be hurt.', at);
    await approveDrafts(tx, [id], { approverId: CAST.owner.id, approvedAt: at, inForceFrom: at, acknowledgeBy: at, graceTextId });
    await closePeriod(tx, old.procedureId, at);
    await openPeriods(tx, [{ id: randomUUID(), procedureId: old.procedureId, revisionId: id, fromAt: at }]);
  });
  return id;
}

it('keeps its revision for steps, entries and things added later; the next record has the new one, acknowledged at its start', async () => {
  const first = await start(api, (await siteJob(api)).visitId);
  const before = await recordOf(api, 'anna', first);
  const rating = stepOf(before, 'service-rating');
  api.clock.now = new Date('2026-05-12T16:00:00Z');
  const revisionId = await revise();
  expect((await enter(api, 'anna', first, [answer(rating, 'anna')])).body.results[0].stored).toBe(true);
  const device = (
    await api.send('anna', 'POST', `/api/records/${first}/items`, {
      body: { id: randomUUID(), kind: 'ground_fault_device', label: 'hall bath' },
    })
  ).body;
  const after = await recordOf(api, 'ben', first);
  expect(after.steps.filter((s) => s.itemId === device.id).map((s) => [s.stepKey, s.revisionNumber])).toEqual([
    ['ground-fault-trip-reset', 1],
  ]);

  const { visitId } = await siteJob(api, { startsAt: new Date('2026-05-12T20:00:00Z') });
  api.clock.now = new Date('2026-05-12T20:00:00Z');
  const asked = (await api.send('anna', 'GET', `/api/visits/${visitId}/start`)).body.acknowledgements;
  expect(asked.map((a: { person: string; number: number }) => [a.person, a.number]).sort()).toEqual([
    ['Anna Inspector', 2],
    ['Ben Inspector', 2],
  ]);
  const bare = { id: randomUUID(), items: [], systems: [], acknowledged: [{ personId: CAST.anna.id, revisionId }] };
  expect(await api.send('anna', 'POST', `/api/visits/${visitId}/record`, { body: bare })).toMatchObject({
    status: 409,
    body: { code: 'acknowledgement-first', about: { person: 'Ben Inspector' } },
  });
  const second = await start(api, visitId, 'anna', [{ kind: 'ground_fault_device', label: 'upstairs bath' }]);
  const record = await recordOf(api, 'anna', second);
  expect(record.steps.filter((s) => s.per === 'ground_fault_device').map((s) => [s.stepKey, s.revisionNumber])).toEqual([
    ['live-receptacles-before', 2],
    ['ground-fault-trip-reset', 2],
    ['live-receptacles-after', 2],
  ]);
  const where = await api.database.read.rows<{ where: string }>('SELECT "where" FROM acknowledgement WHERE revision_id = $1::uuid', [
    revisionId,
  ]);
  expect(where).toEqual([{ where: 'at_the_start' }, { where: 'at_the_start' }]);
});

it('compares the receptacles live after the test with those before it', async () => {
  const id = await start(api, (await siteJob(api, { startsAt: new Date('2026-05-14T15:00:00Z') })).visitId, 'anna', [
    { kind: 'ground_fault_device', label: 'upstairs bath' },
  ]);
  const record = await recordOf(api, 'anna', id);
  const count = (key: string, n: number) => answer(stepOf(record, key), 'anna', { evidence: { kind: 'count', count: n } });
  const early = await enter(api, 'anna', id, [count('live-receptacles-after', 3)]);
  expect(early.body.results[0]).toMatchObject({ stored: true, match: 'not_asked' });
  expect(early.body.results[0].warnings.map((w: { code: string }) => w.code)).toEqual(['no-earlier-count', 'before-its-order']);
  const both = await enter(api, 'anna', id, [
    count('live-receptacles-before', 4),
    count('live-receptacles-after', 3),
    count('live-receptacles-after', 4),
  ]);
  expect(both.body.results.map((r: { match: string }) => r.match)).toEqual(['not_asked', 'differs', 'as_expected']);
});
