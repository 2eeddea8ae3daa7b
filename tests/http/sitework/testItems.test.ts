// Devices, samples and their second visits over HTTP: limits, order, one house at a time, and the job that waits for its result.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { FACTS, holdBody, PLACE } from '../../support/booking.ts';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const HOUR = 3_600_000;
const ago = (hours: number): string => new Date(api.clock.now.getTime() - hours * HOUR).toISOString();
const place = (jobId: string, more: object = {}, who: 'anna' | 'cora' | 'office' = 'anna') =>
  api.send(who, 'POST', `/api/jobs/${jobId}/test-items`, {
    body: {
      id: randomUUID(),
      kind: 'device',
      serial: randomUUID().slice(0, 8),
      what: 'Radon monitor',
      happenedAt: ago(60),
      closedSince: ago(80),
      occupantTold: true,
      ...more,
    },
  });
const step = (id: string, body: object, who: 'anna' | 'cora' | 'office' = 'anna') =>
  api.send(who, 'POST', `/api/test-items/${id}/steps`, { body });
const items = async (jobId: string) => (await api.send('anna', 'GET', `/api/jobs/${jobId}/test-items`)).body;
let day = 1;
const job = () => siteJob(api, { startsAt: new Date(api.clock.now.getTime() - (day += 1) * 24 * HOUR) });

describe('a device', () => {
  it('goes through its steps, each once, with instant and person', async () => {
    const { jobId } = await job();
    const placed = await place(jobId);
    expect(placed, JSON.stringify(placed.body)).toMatchObject({ status: 201, body: { collectFrom: ago(12) } });
    const { id } = placed.body;
    expect((await step(id, { step: 'collected', happenedAt: ago(13), moved: false })).body).toMatchObject({ code: 'collected-too-early' });
    expect((await step(id, { step: 'collected', happenedAt: ago(2) })).body).toMatchObject({ code: 'moved-check-missing' });
    expect((await step(id, { step: 'collected', happenedAt: ago(2), moved: true })).body.warnings).toMatchObject([
      { code: 'device-moved' },
    ]);
    expect((await step(id, { step: 'collected', happenedAt: ago(2), moved: false })).body).toMatchObject({ code: 'test-step-order' });
    expect((await step(id, { step: 'told', happenedAt: ago(1), words: '2.1 pCi/L' }, 'office')).body).toMatchObject({ awaited: 0 });
    expect((await items(jobId)).items[0]).toMatchObject({
      awaited: false,
      next: [],
      steps: [
        { step: 'placed', by: 'Anna Inspector', occupantTold: true },
        { step: 'collected', moved: true },
        { step: 'told', words: '2.1 pCi/L', by: 'Otto Office' },
      ],
    });
    const audit = await api.database.read.rows<{ details: object }>('SELECT details FROM audit_row WHERE thing_id = $1', [id]);
    expect(JSON.stringify(audit)).not.toContain('pCi');
  });
  it('is at one house at a time, and is not for others', async () => {
    const [here, there] = [await job(), await job()];
    const serial = 'RM-0148';
    expect((await place(here.jobId, { serial })).status).toBe(201);
    expect(await place(there.jobId, { serial })).toMatchObject({ status: 409, body: { code: 'device-out-elsewhere' } });
    expect(await place(there.jobId, {}, 'cora')).toMatchObject({ status: 403, body: { code: 'not-on-this-visit' } });
    expect((await place(there.jobId, { happenedAt: new Date(api.clock.now.getTime() + HOUR).toISOString() })).body).toMatchObject({
      code: 'test-step-ahead',
    });
    for (const body of [{ serial: '' }, { kind: 'balloon' }, { happenedAt: 'yesterday' }])
      expect((await place(there.jobId, body)).status).toBe(422);
    expect((await step(randomUUID(), { step: 'sent', happenedAt: ago(1) })).status).toBe(404);
  });
  it('is kept to its hours by the database too', async () => {
    const { jobId } = await job();
    const { id } = (await place(jobId)).body;
    await expect(
      api.database.transaction(({ db }) =>
        db.testStep.create({
          data: {
            itemId: id,
            step: 'collected',
            details: {},
            happenedAt: new Date(ago(13)),
            recordedAt: api.clock.now,
            recordedBy: CAST.anna.id,
          },
        }),
      ),
    ).rejects.toThrow(/test_too_short/);
  });
});

describe('a job of which a result is awaited', () => {
  it('is not reported before it was told, and is then', async () => {
    const { jobId } = await job();
    const { id } = (await place(jobId)).body;
    await step(id, { step: 'collected', happenedAt: ago(2), moved: false });
    const set = (state: string) => api.database.transaction(({ db }) => db.job.update({ where: { id: jobId }, data: { state } }));
    await set('visited');
    await expect(set('reported')).rejects.toThrow(/results_awaited/);
    expect((await api.send('office', 'GET', `/api/jobs/${jobId}/desk`)).body.awaited).toHaveLength(1);
    const home = (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'resultsAwaited');
    expect(home.items.some(({ thing }: { thing: { id: string } }) => thing.id === jobId)).toBe(true);
    await step(id, { step: 'given_up', happenedAt: ago(0), words: 'The monitor failed; the client does not want it again.' });
    await set('reported');
  });
});

describe('the pick-up', () => {
  type Option = { startsAt: string; endsAt: string; first: string; second: string | null };
  const starts = async (visitKind: string, fromDay: string): Promise<Option[]> =>
    (
      await api.send('office', 'POST', '/api/starts', {
        once: true,
        body: { place: PLACE, facts: FACTS, services: ['inspection', 'radon'], visitKind, fromDay, days: 7, limit: 100 },
      })
    ).body.options;
  let jobId = '';
  let visit: { id: string; version: number; endsAt: string };
  beforeAll(async () => {
    const [start] = await starts('inspection', '2026-05-13');
    const held = await api.send('office', 'POST', '/api/jobs', { body: holdBody(start!, { services: ['inspection', 'radon'] }) });
    expect(held.status, JSON.stringify(held.body)).toBe(201);
    jobId = held.body.id;
    await api.send('office', 'POST', `/api/jobs/${jobId}/confirmation`);
    [visit] = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body.visits;
  });
  const add = ({ startsAt, first }: Option) =>
    api.send('office', 'POST', `/api/jobs/${jobId}/visits`, { body: { kind: 'radon_pickup', start: { startsAt, first, second: null } } });

  it('is offered with its earliest start, asks for a closed house, and is refused before', async () => {
    const from = new Date(Date.parse(visit.endsAt) + 48 * HOUR);
    const desk = (await api.send('office', 'GET', `/api/jobs/${jobId}/desk`)).body;
    expect(desk.laterVisits).toEqual([{ kind: 'radon_pickup', name: 'Radon pick-up', from: from.toISOString(), booked: false }]);
    const needs = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body.needs.map(({ kind }: { kind: string }) => kind);
    expect(needs).toEqual(expect.arrayContaining(['closed_house', 'results']));
    const options = await starts('radon_pickup', from.toISOString().slice(0, 10));
    const early = options.filter(({ startsAt }) => new Date(startsAt) < from).at(-1)!;
    expect(await add(early)).toMatchObject({
      status: 422,
      body: { code: 'pickup-before', title: expect.stringContaining('this visit may begin from') },
    });
    const right = options.find(({ startsAt }) => new Date(startsAt) >= from)!;
    const added = await add(right);
    expect(added.status, JSON.stringify(added.body)).toBe(201);
    const told = await api.database.read.rows<{ subject: string; body: string }>(
      `SELECT subject, body FROM outgoing_mail WHERE message_key LIKE $1 OR message_key LIKE $2 ORDER BY message_key`,
      [`added:${added.body.id}:%`, `crew:${added.body.id}:%`],
    );
    expect(told.map(({ subject }) => subject)).toEqual([
      expect.stringContaining('Your appointment'),
      expect.stringContaining('New: radon pick-up'),
    ]);
    expect(told[0]!.body).toContain('radon pick-up');
  });
  it('keeps its distance when the inspection is moved, by the database', async () => {
    const later = (await starts('inspection', '2026-05-18'))[0]!;
    const moved = await api.send('office', 'PUT', `/api/visits/${visit.id}/start`, {
      version: visit.version,
      body: { startsAt: later.startsAt, first: later.first, second: later.second },
    });
    expect(moved).toMatchObject({ status: 409, body: { code: 'pickup-too-early' } });
  });
});
