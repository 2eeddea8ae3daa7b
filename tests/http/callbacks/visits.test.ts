// Tag: time.
// The visit that a remedy brings: through the same search and checks, free of charge, and never by the original pair alone.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { nextNumber } from '@backsight/store/numbers';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, does, enter, recordAll, recordOf, stepOf } from '../sitework/support.ts';
import { on, proposed, received, remedy, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
const ORIGINAL = [CAST.anna.id, CAST.ben.id];
let job: Visited;
let callbackId: string;
let remedyId: string;

type Option = { startsAt: string; first: string; second: string };
const starts = async (who: 'office' | 'anna' = 'office') => api.send(who, 'GET', `/api/remedies/${remedyId}/starts?fromDay=2026-05-13`);
const book = (start: object, id = remedyId, jobId = randomUUID()) => remedy(api, 'office', id, 'visit', { jobId, start });

beforeAll(async () => {
  job = await visited(api);
  await api.database.transaction((tx) => nextNumber(tx, 'job')); // the first number is taken by the job just written
  callbackId = await received(api, job);
  await on(api, 'office', callbackId, 'acknowledge');
  remedyId = await proposed(api, 'office', callbackId, 0, 'revisit');
});

describe('a callback visit', () => {
  it('is offered to pairs of which at least one was not there', async () => {
    const { status, body } = await starts();
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body.originalPair.toSorted()).toEqual([CAST.anna.name, CAST.ben.name]);
    expect(body.starts.options.length).toBeGreaterThan(3);
    const alone = body.starts.options.filter(({ first, second }: Option) => ORIGINAL.includes(first) && ORIGINAL.includes(second));
    expect(alone).toEqual([]);
    expect((await starts('anna')).status).toBe(403);
  });
  it('is not offered on a day on which only the original pair is at work', async () => {
    const [startsAt, endsAt] = [new Date('2026-05-14T05:00:00Z'), new Date('2026-05-15T05:00:00Z')];
    const others = [CAST.lead, CAST.lead2, CAST.cora, CAST.dan, CAST.tess];
    await api.database.transaction(({ db }) =>
      db.absence.createMany({
        data: others.map(({ id: personId }) => ({ id: randomUUID(), personId, startsAt, endsAt, reason: 'x', recordedAt: startsAt })),
      }),
    );
    const { options, blockedDays } = (await starts()).body.starts;
    expect(options.filter(({ day }: { day: string }) => day === '2026-05-14')).toEqual([]);
    expect(blockedDays.find(({ day }: { day: string }) => day === '2026-05-14').reasons.join(' ')).toMatch(/pairing rules|go together/i);
  });
  it('is refused to the original pair, to a remedy that is no re-visit, and to one that was not approved', async () => {
    const [{ startsAt }] = (await starts()).body.starts.options as Option[] as [Option];
    expect(await book({ startsAt, first: CAST.anna.id, second: CAST.ben.id })).toMatchObject({
      status: 409,
      body: { code: 'original-pair-alone' },
    });
    expect(await book({ startsAt: '2026-05-01T15:00:00Z', first: CAST.anna.id, second: CAST.cora.id })).toMatchObject({
      body: { code: 'start-is-past' },
    });
    const notice = await proposed(api, 'office', callbackId, 0, 'insurer_notice');
    expect(await book({ startsAt, first: CAST.anna.id, second: CAST.cora.id }, notice)).toMatchObject({
      status: 409,
      body: { code: 'remedy-is-no-visit' },
    });
    const refused = await proposed(api, 'office', callbackId, 0, 'revisit');
    await remedy(api, 'owner', refused, 'decision', { decision: 'refused' });
    expect(await book({ startsAt, first: CAST.anna.id, second: CAST.cora.id }, refused)).toMatchObject({
      status: 409,
      body: { code: 'remedy-not-approved' },
    });
  });
  it('is booked at once as a job of its own: same people, no fee, no agreement, nothing stands in the way of its start', async () => {
    const [{ startsAt, first, second }] = (await starts()).body.starts.options as [Option];
    const jobId = randomUUID();
    const booked = await book({ startsAt, first, second }, remedyId, jobId);
    expect(booked.status, JSON.stringify(booked.body)).toBe(201);
    const page = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body;
    expect(page).toMatchObject({ kind: 'callback_visit', state: 'booked', feeLines: [], agreement: null, invoice: null });
    expect(page.parties.map(({ partyId }: { partyId: string }) => partyId)).toContain(job.clientId);
    expect(page.visits).toMatchObject([{ kind: 'callback_visit', state: 'booked', startsAt }]);
    expect(page.needs.map(({ kind }: { kind: string }) => kind).toSorted()).toEqual(['access', 'utilities']);
    const callback = (await api.send('office', 'GET', `/api/callbacks/${callbackId}`)).body;
    expect(callback.remedies.find(({ id }: { id: string }) => id === remedyId).visit).toMatchObject({
      jobId,
      number: page.number,
      startsAt,
    });
    expect(callback.events.at(-1)).toMatchObject({ kind: 'visit_booked' });
    const gate = await api.send('office', 'GET', `/api/visits/${page.visits[0].id}/gate`);
    expect(gate.body.missing).toEqual([]);
    const again = await book({ startsAt, first, second });
    expect(again).toMatchObject({ status: 409, body: { code: 'visit-booked-already', about: { number: page.number } } });
  });
  it('is not moved to the original pair either', async () => {
    const { visit } = (await api.send('office', 'GET', `/api/callbacks/${callbackId}`)).body.remedies.find(
      ({ id }: { id: string }) => id === remedyId,
    );
    const [placed] = (await api.send('office', 'GET', `/api/jobs/${visit.jobId}`)).body.visits;
    const later = new Date(new Date(visit.startsAt).getTime() + 3_600_000).toISOString();
    const moved = await api.send('office', 'PUT', `/api/visits/${placed.id}/start`, {
      version: placed.version,
      body: { startsAt: later, first: CAST.anna.id, second: CAST.ben.id },
    });
    expect(moved).toMatchObject({ status: 409, body: { code: 'start-not-possible' } });
    expect(moved.body.about.rules).toEqual(['pair-rule']);
  });
});

describe('what a callback visit sees', () => {
  it('is a record of its own: begun with the systems and things at issue, sealed, shown beside the inspection, never invoiced', async () => {
    const find = async () => {
      const { remedies } = (await api.send('owner', 'GET', `/api/callbacks/${callbackId}`)).body;
      return remedies.find(({ id }: { id: string }) => id === remedyId);
    };
    const { visit } = await find();
    expect((await remedy(api, 'office', remedyId, 'done', {})).body.code).toBe('visit-not-done');
    const [placed] = (await api.send('office', 'GET', `/api/jobs/${visit.jobId}`)).body.visits;
    const [first, second] = (await api.database.read.rows<{ id: string }>(
      `SELECT person_id::text AS id FROM assignment WHERE visit_id = $1::uuid ORDER BY place`,
      [placed.id],
    )) as [{ id: string }, { id: string }];
    const nameOf = (id: string) => Object.entries(CAST).find(([, one]) => one.id === id)![0] as CastName;
    const pair = [nameOf(first.id), nameOf(second.id)] as const;
    await api.database.transaction(({ db }) =>
      db.jobNeed.updateMany({ where: { jobId: visit.jobId }, data: { state: 'settled', settledAt: api.clock.now } }),
    );
    api.clock.now = new Date(placed.startsAt);
    const { systems, items } = (await api.send(pair[0], 'GET', `/api/visits/${placed.id}/start`)).body;
    expect(systems.filter((one: { suggested: boolean }) => one.suggested).map(({ system }: { system: string }) => system)).toEqual([
      'electrical',
    ]);
    expect(items).toContainEqual({ kind: 'ground_fault_device', label: 'Upstairs bath' });
    const body = {
      id: randomUUID(),
      items: items.map((item: object) => ({ ...item, id: randomUUID() })),
      systems: ['electrical'],
      acknowledged: [],
    };
    const opened = await api.send(pair[0], 'POST', `/api/visits/${placed.id}/record`, { body });
    expect(opened.status, JSON.stringify(opened.body)).toBe(201);
    await recordAll(api, body.id, pair);
    expect((await api.send(pair[0], 'POST', `/api/records/${body.id}/end`, { body: { endedAs: 'complete' } })).status).toBe(201);
    const sealed = await api.send(pair[0], 'POST', `/api/records/${body.id}/seal`, { body: {} });
    expect(sealed.status, JSON.stringify(sealed.body)).toBe(201);
    const [seen] = (await api.send('lead', 'GET', `/api/callbacks/${callbackId}/visits`)).body;
    expect(seen).toMatchObject({ recordId: body.id, sealedAt: expect.any(String), remedyId });
    const trip = seen.steps.find(({ stepKey }: { stepKey: string }) => stepKey === 'ground-fault-trip-reset');
    expect(trip).toMatchObject({ item: 'Upstairs bath', then: [], now: [expect.any(String)] });
    expect(new Set(seen.steps.map(({ stepKey }: { stepKey: string }) => stepKey)).has('shingles')).toBe(false);
    expect((await api.send('office', 'GET', `/api/callbacks/${callbackId}/visits`)).status).toBe(403);
    const invoiced = await api.send('office', 'POST', `/api/jobs/${visit.jobId}/invoices`, { body: {} });
    expect(invoiced.status).toBeGreaterThanOrEqual(400);
    expect((await api.send('office', 'GET', `/api/jobs/${visit.jobId}/invoices`)).body).toEqual([]);
    expect((await remedy(api, 'office', remedyId, 'done', {})).status).toBe(201);
    expect((await find()).state).toBe('done');
  });
  it('that is cancelled leaves the remedy approved, to be booked again', async () => {
    const again = await proposed(api, 'office', callbackId, 0, 'revisit');
    const options = (await api.send('office', 'GET', `/api/remedies/${again}/starts?fromDay=2026-06-01`)).body.starts.options as [Option];
    const jobId = randomUUID();
    const [{ startsAt, first, second }] = options;
    expect((await book({ startsAt, first, second }, again, jobId)).status).toBe(201);
    const { version } = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body;
    const cancelled = await api.send('office', 'PUT', `/api/jobs/${jobId}/cancellation`, {
      version,
      body: { reason: 'The client is away', waive: true, waiver: 'A visit of ours' },
    });
    expect(cancelled.status, JSON.stringify(cancelled.body)).toBeLessThan(300);
    const one = (await api.send('office', 'GET', `/api/callbacks/${callbackId}`)).body.remedies.find(
      ({ id }: { id: string }) => id === again,
    );
    expect([one.state, one.visit]).toEqual(['approved', null]);
    expect((await book({ startsAt, first, second }, again)).status).toBe(201);
  });
});

it('the evidence lists what the pair did besides the steps in order, with who and when, by what it bears on, and how the two looks came out', async () => {
  const { items } = await recordOf(api, 'anna', job.recordId);
  const device = items.find(({ kind }) => kind === 'ground_fault_device')!.id;
  await does(api, 'anna', job.recordId, { do: 'arrival', there: 'adult', animals: 'none', recording: 'none', inView: [] });
  await does(api, 'ben', job.recordId, { do: 'outlet', device, outlet: randomUUID(), reached: true, runs: null }, { where: 'garage wall' });
  await does(api, 'anna', job.recordId, { do: 'hazard_look', place: 'roof', item: null, stops: ['wet'] });
  await does(api, 'anna', job.recordId, { do: 'changed', thing: 'thermostat' }, { where: 'hall' });
  await does(api, 'ben', job.recordId, { do: 'damage', what: 'damage', safety: false }, { where: 'garage shelf', note: 'scratched' });
  const found = (await api.send('lead', 'GET', `/api/callbacks/${await received(api, job)}/evidence`)).body;
  expect(found.records[0].recordId).toBe(job.recordId);
  expect(found.acts.map((one: Record<string, unknown>) => [one.what, one.by, one.systems, one.atPlace])).toEqual([
    ['Arrival', CAST.anna.name, null, false],
    ['Receptacle before the test', CAST.ben.name, ['electrical'], true],
    ['Looked at for danger', CAST.anna.name, ['roof'], false],
    ['Changed by us', CAST.anna.name, ['heating', 'cooling'], false],
    ['Damage or injury', CAST.ben.name, null, true],
  ]);
  expect(found.acts[2]).toMatchObject({ words: 'roof: wet, icy, snow or frost', at: '2026-05-12T15:30:00.000Z' });
  const checked = found.steps.filter((one: { partnerCheck: boolean; comparison: unknown }) => one.partnerCheck && one.comparison === null);
  const step = stepOf(await recordOf(api, 'anna', job.recordId), checked[0].stepKey);
  for (const who of ['anna', 'ben'] as const) await enter(api, who, job.recordId, [answer(step, who)]);
  const after = (await api.send('lead', 'GET', `/api/callbacks/${await received(api, job)}/evidence`)).body;
  expect(after.steps.find((step: { stepKey: string }) => step.stepKey === checked[0].stepKey).comparison).toBe('agree');
});
