// The site record over HTTP: starting, recording, the withheld partner's answer, ending and sealing.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordAll, recordOf, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
const hours = (n: number): Date => new Date(new Date('2026-05-12T15:00:00Z').getTime() + n * 3_600_000);

describe('my day', () => {
  it('shows the visit with kit, access and partner to those who go there, and to nobody else', async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(5) });
    const mine = (await api.send('anna', 'GET', '/api/my-day')).body.visits.find((v: { id: string }) => v.id === visitId);
    expect(mine).toMatchObject({ kit: ['Extension ladder'], access: { lines: ['Seller opens at the side door'] }, acknowledgements: [] });
    expect(mine.pair.map((m: { name: string }) => m.name)).toEqual(['Anna Inspector', 'Ben Inspector']);
    expect((await api.send('cora', 'GET', '/api/my-day')).body.visits).toEqual([]);
    expect((await api.send('nobody', 'GET', '/api/my-day')).status).toBe(401);
  });
});

describe('starting', () => {
  it('is refused while the agreement is unsigned, and goes ahead when that was let pass', async () => {
    const { visitId } = await siteJob(api, { signed: false, startsAt: hours(24) });
    const body = { id: randomUUID(), items: [], systems: [], acknowledged: [] };
    const shut = await api.send('anna', 'POST', `/api/visits/${visitId}/record`, { body });
    expect(shut).toMatchObject({ status: 409, body: { code: 'gate-closed', about: { missing: ['agreement-unsigned'] } } });
    await api.database.transaction((tx) =>
      tx.db.gateOverride.create({
        data: {
          id: randomUUID(),
          visitId,
          missing: ['agreement-unsigned'],
          reason: 'signs at the door',
          actorId: CAST.lead.id,
          happenedAt: hours(0),
          recordedAt: hours(0),
        },
      }),
    );
    expect((await api.send('anna', 'POST', `/api/visits/${visitId}/record`, { body })).status).toBe(201);
    const [pack] = await api.database.read.rows<{ despite: boolean }>(
      'SELECT start_despite_gate AS despite FROM site_package WHERE record_id = $1::uuid',
      [body.id],
    );
    expect(pack?.despite).toBe(true);
  });
  it('is not for an inspector who does not go there', async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(28) });
    expect(await api.send('cora', 'GET', `/api/visits/${visitId}/start`)).toMatchObject({
      status: 403,
      body: { code: 'not-on-this-visit' },
    });
    const body = { id: randomUUID(), items: [], systems: [], acknowledged: [] };
    expect((await api.send('cora', 'POST', `/api/visits/${visitId}/record`, { body })).status).toBe(403);
  });
  it('happens once, and moves visit and job on site with an event', async () => {
    const { visitId, jobId } = await siteJob(api, { startsAt: hours(32) });
    await start(api, visitId);
    const again = await api.send('ben', 'POST', `/api/visits/${visitId}/record`, {
      body: { id: randomUUID(), items: [], systems: [], acknowledged: [] },
    });
    expect(again).toMatchObject({ status: 409, body: { code: 'record-already-open' } });
    const [row] = await api.database.read.rows(
      'SELECT v.state AS visit, j.state AS job, (SELECT kind FROM job_event e WHERE e.job_id = j.id ORDER BY seq DESC LIMIT 1) AS event FROM visit v JOIN job j ON j.id = v.job_id WHERE j.id = $1::uuid',
      [jobId],
    );
    expect(row).toEqual({ visit: 'on_site', job: 'on_site', event: 'started' });
  });
  it('names bad input', async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(36) });
    const body = { id: randomUUID(), items: [{ id: randomUUID(), kind: 'spaceship', label: 'x' }], systems: [], acknowledged: [] };
    expect(await api.send('anna', 'POST', `/api/visits/${visitId}/record`, { body })).toMatchObject({
      status: 422,
      body: { code: 'not-valid', field: 'items.0.kind' },
    });
    const twice = { ...body, items: [1, 2].map(() => ({ id: randomUUID(), kind: 'panel', label: 'panel' })) };
    expect(await api.send('anna', 'POST', `/api/visits/${visitId}/record`, { body: twice })).toMatchObject({
      status: 409,
      body: { code: 'item-name-taken' },
    });
  });
});

describe('recording', () => {
  let id: string;
  beforeAll(async () => {
    id = await start(api, (await siteJob(api, { startsAt: hours(48) })).visitId);
  });

  it('stores an entry once, however often and in whatever batch it comes', async () => {
    const entry = answer(stepOf(await recordOf(api, 'anna', id), 'adult-present-or-vacant'), 'anna');
    const stand = (who: CastName) => api.send(who, 'GET', `/api/records/${id}/stand`);
    const before = await stand('ben');
    expect((await enter(api, 'anna', id, [entry])).body.results).toMatchObject([{ id: entry.id, stored: true }]);
    expect((await enter(api, 'anna', id, [entry, entry])).body.results).toMatchObject([{ stored: true }, { stored: true }]);
    expect((await recordOf(api, 'anna', id)).entries.filter((e) => e.id === entry.id)).toHaveLength(1);
    const after = await stand('ben');
    expect(after.body.mark).not.toBe(before.body.mark);
    expect([(await stand('anna')).body, (await stand('cora')).status]).toEqual([after.body, 403]);
  });
  it('judges each entry by itself: one that does not fit keeps no other out', async () => {
    const record = await recordOf(api, 'anna', id);
    const bad = answer(stepOf(record, 'service-entrance'), 'anna', { evidence: { kind: 'choice', option: 'no such answer' } });
    const good = answer(stepOf(record, 'animals-secured'), 'anna');
    const { body } = await enter(api, 'anna', id, [bad, good]);
    expect(body.results.map((r: { stored: boolean; code: string | null }) => [r.stored, r.code])).toEqual([
      [false, 'entry-not-an-option'],
      [true, null],
    ]);
  });
  it('takes unsafe as a reason without another word, but not no reason', async () => {
    const step = stepOf(await recordOf(api, 'anna', id), 'panel-enclosure-not-live');
    const bare = answer(step, 'anna', { outcome: 'could_not', evidence: null });
    const { body } = await enter(api, 'anna', id, [bare, { ...bare, id: randomUUID(), reason: 'unsafe' }]);
    expect(body.results.map((r: { code: string | null }) => r.code)).toEqual(['entry-reason-missing', null]);
  });
  it('lets the partner write down what the other one saw', async () => {
    const step = stepOf(await recordOf(api, 'ben', id), 'service-rating');
    await enter(api, 'ben', id, [answer(step, 'anna')]);
    expect((await recordOf(api, 'anna', id)).entries.find((e) => e.stepKey === 'service-rating')).toMatchObject({
      observedBy: CAST.anna.id,
      writtenBy: CAST.ben.id,
    });
  });
  it('replaces an entry only by one of the same person; of two corrections the newest counts', async () => {
    const record = await recordOf(api, 'anna', id);
    const step = stepOf(record, 'service-rating');
    const old = record.entries.find((e) => e.stepKey === 'service-rating')!;
    const correct = (who: 'anna' | 'ben', note = '100 amperes') =>
      answer(step, who, { note, corrects: { entryId: old.id, why: 'mistyped' } });
    const { body } = await enter(api, 'ben', id, [correct('ben')]);
    expect(body.results[0].code).toBe('entry-of-another');
    expect((await enter(api, 'anna', id, [correct('anna')])).body.results[0].stored).toBe(true);
    expect((await enter(api, 'anna', id, [correct('anna', '150 amperes')])).body.results[0].stored).toBe(true);
    expect((await recordOf(api, 'anna', id)).entries.filter((e) => e.stepKey === 'service-rating').map((e) => e.note)).toEqual([
      '150 amperes',
    ]);
  });
  it('is for the pair alone', async () => {
    const step = stepOf(await recordOf(api, 'anna', id), 'animals-secured');
    expect((await enter(api, 'cora', id, [answer(step, 'anna')])).status).toBe(403);
    expect((await api.send('lead', 'GET', `/api/records/${id}`)).status).toBe(403);
    expect((await api.send('office', 'GET', `/api/records/${id}/sealed`)).status).toBe(403);
  });
  it('refuses a batch without entries, and one whose entries have no id to answer under', async () => {
    const { id: _id, ...nameless } = answer(stepOf(await recordOf(api, 'anna', id), 'animals-secured'), 'anna');
    for (const entries of [[], [nameless]])
      expect((await api.send('anna', 'POST', `/api/records/${id}/entries`, { body: { entries } })).status).toBe(422);
  });
});

describe('things found on site', () => {
  it('bring their steps in a further package; entries of the first one are still accepted', async () => {
    const id = await start(api, (await siteJob(api, { startsAt: hours(72) })).visitId);
    const before = await recordOf(api, 'anna', id);
    const added = await api.send('anna', 'POST', `/api/records/${id}/items`, {
      body: { id: randomUUID(), kind: 'ground_fault_device', label: 'upstairs bath' },
    });
    expect(added).toMatchObject({ status: 201, body: { number: 2 } });
    const stale = answer(stepOf(before, 'animals-secured'), 'ben');
    expect((await enter(api, 'ben', id, [stale])).body.results[0].stored).toBe(true);
    const after = await recordOf(api, 'ben', id);
    expect(after.steps.length).toBe(before.steps.length + added.body.steps);
    expect(stepOf(after, 'ground-fault-trip-reset', added.body.id).packageId).toBe(added.body.packageId);
    expect(after.entries.map((e) => e.id)).toContain(stale.id);
  });
  it('need a name of their own and a step that is done for them', async () => {
    const id = await start(api, (await siteJob(api, { startsAt: hours(76) })).visitId);
    const add = (kind: string, label: string) =>
      api.send('anna', 'POST', `/api/records/${id}/items`, { body: { id: randomUUID(), kind, label } });
    expect(await add('bathroom', 'bathroom')).toMatchObject({ status: 409, body: { code: 'item-name-taken' } });
    expect(await add('outbuilding', 'shed')).toMatchObject({ status: 409, body: { code: 'item-without-steps' } });
    expect(
      (await api.send('cora', 'POST', `/api/records/${id}/items`, { body: { id: randomUUID(), kind: 'panel', label: 'x' } })).status,
    ).toBe(403);
  });
});

describe('the partner check', () => {
  it('keeps the first answer from the second member until both are there, whoever asks and however', async () => {
    const id = await start(api, (await siteJob(api, { startsAt: hours(96) })).visitId);
    const record = await recordOf(api, 'anna', id);
    const step = record.steps.find((s) => s.partnerCheck && s.evidence.kind === 'choice') ?? record.steps.find((s) => s.partnerCheck)!;
    const first = answer(step, 'anna', { note: 'seen by Anna alone' });
    await enter(api, 'anna', id, [first]);
    const seen = await api.send('ben', 'GET', `/api/records/${id}`);
    expect(JSON.stringify(seen.body)).not.toContain('seen by Anna alone');
    expect(JSON.stringify(seen.body)).not.toContain(first.id);
    expect(seen.body.withheld).toEqual([{ stepKey: step.stepKey, itemId: step.itemId }]);
    expect(seen.body.comparisons).toEqual([]);
    await enter(api, 'ben', id, [answer(step, 'ben', { outcome: 'could_not', evidence: null, reason: 'locked' })]);
    for (const who of ['anna', 'ben'] as const) {
      const both = await recordOf(api, who, id);
      expect(both.entries.filter((e) => e.stepKey === step.stepKey)).toHaveLength(2);
      expect(both.comparisons).toEqual([{ stepKey: step.stepKey, itemId: step.itemId, result: 'differ' }]);
      expect(both.withheld).toEqual([]);
    }
  });
  it('is written by the one who looked', async () => {
    const id = await start(api, (await siteJob(api, { startsAt: hours(100) })).visitId);
    const step = (await recordOf(api, 'anna', id)).steps.find((s) => s.partnerCheck)!;
    expect((await enter(api, 'ben', id, [answer(step, 'anna')])).body.results[0].code).toBe('partner-check-own-hand');
  });
});

describe('ending and sealing', () => {
  it('seals a whole record when that was asked for and the last of it has come, whichever phone says so again, and takes nothing more', async () => {
    const { visitId, jobId } = await siteJob(api, { startsAt: hours(120) });
    const id = await start(api, visitId);
    const gaps = await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: {} });
    expect(gaps).toMatchObject({ status: 409, body: { code: 'record-has-gaps' } });
    const asked = await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: { whenSent: true } });
    expect(asked).toMatchObject({ status: 201, body: { sha256: null } });
    expect(await recordOf(api, 'ben', id)).toMatchObject({ state: 'open', sealAskedBy: CAST.anna.id });
    await recordAll(api, id);
    expect((await recordOf(api, 'anna', id)).missing).toEqual([{ kind: 'ending', stepKey: null, itemId: null, person: null, ref: null }]);
    expect((await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } })).body).toMatchObject({
      notReached: 0,
    });
    expect((await recordOf(api, 'ben', id)).state).toBe('sealed');
    expect((await api.send('ben', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } })).status).toBe(201);
    const sealed = await api.send('ben', 'POST', `/api/records/${id}/seal`, { body: { whenSent: true } });
    expect(sealed).toMatchObject({ status: 201, body: { sha256: expect.stringMatching(/^[0-9a-f]{64}$/) } });
    const late = answer(stepOf(await recordOf(api, 'anna', id), 'animals-secured'), 'anna');
    expect((await enter(api, 'anna', id, [late])).body.results).toMatchObject([{ stored: false, code: 'record-sealed' }]);
    expect(await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'record-sealed' },
    });
    expect(
      await api.send('anna', 'POST', `/api/records/${id}/items`, { body: { id: randomUUID(), kind: 'panel', label: 'x' } }),
    ).toMatchObject({ body: { code: 'record-sealed' } });
    const whole = await api.send('lead', 'GET', `/api/records/${id}/sealed`);
    expect(whole.body.seal).toMatchObject({ sha256: sealed.body.sha256, holds: true });
    const [row] = await api.database.read.rows(
      'SELECT v.state AS visit, j.state AS job FROM visit v JOIN job j ON j.id = v.job_id WHERE j.id = $1::uuid',
      [jobId],
    );
    expect(row).toEqual({ visit: 'done', job: 'visited' });
  });
  it('fills in what was not reached when a visit ended early, and asks nobody why', async () => {
    const id = await start(api, (await siteJob(api, { startsAt: hours(144) })).visitId);
    const record = await recordOf(api, 'anna', id);
    await enter(api, 'anna', id, [answer(stepOf(record, 'adult-present-or-vacant'), 'anna')]);
    const ended = await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'stopped_for_safety' } });
    expect(ended.body.notReached).toBeGreaterThan(record.steps.length - 2);
    expect(await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } })).toMatchObject({
      status: 409,
      body: { code: 'record-ended' },
    });
    const late = answer(stepOf(record, 'animals-secured'), 'ben');
    await enter(api, 'ben', id, [late]);
    expect(
      (await recordOf(api, 'ben', id)).entries
        .filter((e) => e.stepKey === 'animals-secured' && e.observedBy === CAST.ben.id)
        .map((e) => e.outcome),
    ).toEqual(['done']);
    expect((await api.send('ben', 'POST', `/api/records/${id}/seal`, { body: {} })).status).toBe(201);
  });
  it('is not for others, nor before the seal', async () => {
    const id = await start(api, (await siteJob(api, { startsAt: hours(168) })).visitId);
    expect((await api.send('cora', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'nobody_came' } })).status).toBe(403);
    expect((await api.send('office', 'POST', `/api/records/${id}/seal`, { body: {} })).status).toBe(403);
    expect(await api.send('lead', 'GET', `/api/records/${id}/sealed`)).toMatchObject({ status: 409, body: { code: 'record-not-sealed' } });
    expect((await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'tired' } })).status).toBe(422);
    expect((await api.send('anna', 'GET', `/api/records/${randomUUID()}`)).status).toBe(404);
  });
});
