// What the pair does on site besides the steps, over HTTP: what keeps a visit open, what closes steps, and who is alerted.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { alertReturns } from '@backsight/usecases/sitework/alertReturns';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob, type SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { act, does, enter, recordAll, recordOf, signOff, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
const hours = (n: number): Date => new Date(new Date('2026-05-12T15:00:00Z').getTime() + n * 3_600_000);
const mails = () =>
  api.database.read.rows<{ to: string; subject: string }>(
    `SELECT to_address AS "to", subject FROM outgoing_mail ORDER BY recorded_at, to_address`,
  );

describe('a ground-fault device', () => {
  let id: string;
  let device: string;
  const outlets = [randomUUID(), randomUUID()];

  beforeAll(async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(1) });
    id = await start(api, visitId, 'anna', [{ kind: 'ground_fault_device', label: 'upstairs bath' }]);
    device = (await recordOf(api, 'anna', id)).items.find(({ kind }) => kind === 'ground_fault_device')!.id;
  });

  it('is tested in its sequence, whoever of the pair writes it; tripping before the question is taken in and said', async () => {
    const trip = { do: 'trip', device, by: 'button', result: 'trips' } as const;
    const early = await does(api, 'ben', id, { ...trip, result: 'no_trip', dead: [] });
    expect(early.warnings).toEqual(['loads-not-asked']);
    await does(api, 'anna', id, { do: 'loads', asked: 'occupant', loads: ['freezer'] }, { where: 'garage' });
    for (const [at, outlet] of outlets.entries())
      await does(
        api,
        'ben',
        id,
        { do: 'outlet', device, outlet, reached: at === 0, runs: at === 0 ? null : true },
        { where: 'garage', appliance: 'freezer' },
      );
    expect((await does(api, 'anna', id, { ...trip, dead: outlets })).warnings).toEqual([]);
    await does(api, 'anna', id, { do: 'reset', device, resets: true });
    const { acts } = await recordOf(api, 'ben', id);
    expect(acts.map((a) => a.act.do)).toEqual(['trip', 'loads', 'outlet', 'outlet', 'trip', 'reset']);
    expect(acts[3]).toMatchObject({ words: { where: 'garage', appliance: 'freezer' }, by: CAST.ben.id, writtenBy: CAST.ben.id });
  });

  it('keeps the visit open while the freezer was not seen running again', async () => {
    await does(api, 'anna', id, { do: 'power_back', device, live: [outlets[0]!], dead: [] });
    await recordAll(api, id);
    const end = () => api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } });
    expect(await end()).toMatchObject({ status: 409, body: { code: 'not-restored', about: { count: 1 } } });
    expect((await recordOf(api, 'anna', id)).missing.map(({ kind, ref }) => [kind, ref])).toEqual([
      ['ending', null],
      ['not_restored', outlets[1]],
    ]);
    const refused = await enter(api, 'anna', id, [
      act(await recordOf(api, 'anna', id), 'anna', { do: 'told', of: outlets.slice(1) }, { client: 'Paula Prior' }),
    ]);
    expect(refused.body.results[0]).toMatchObject({ stored: false, code: 'act-words-missing' });
    await does(api, 'anna', id, { do: 'told', of: outlets.slice(1) }, { client: 'Paula Prior', office: 'Olga' });
    expect((await end()).status).toBe(201);
  });

  it('is sealed once both have signed off what they wrote last, and the seal covers every act', async () => {
    const seal = () => api.send('ben', 'POST', `/api/records/${id}/seal`, { body: {} });
    expect(await seal()).toMatchObject({ status: 409, body: { code: 'record-has-gaps', about: { count: 1 } } });
    const forAnna = act(await recordOf(api, 'ben', id), 'anna', {
      do: 'signed_off',
      from: '2026-05-12T15:00:00Z',
      until: '2026-05-12T18:00:00Z',
    });
    expect((await enter(api, 'ben', id, [forAnna])).body.results[0]).toMatchObject({ stored: false, code: 'partner-check-own-hand' });
    await signOff(api, id, ['anna']);
    expect((await seal()).status).toBe(201);
    const sealed = (await api.send('lead', 'GET', `/api/records/${id}/sealed`)).body;
    expect(sealed.seal.holds).toBe(true);
    expect(sealed.acts).toHaveLength(11);
    const late = act(await recordOf(api, 'anna', id), 'anna', { do: 'changed', thing: 'light' }, { where: 'hall' });
    await enter(api, 'anna', id, [late]);
    expect((await api.send('lead', 'GET', `/api/records/${id}/sealed`)).body.acts).toHaveLength(11);
  });

  it('is had on paper; what comes later is a supplement beside it, and it goes out by an owner alone', async () => {
    const page = await api.send('anna', 'GET', `/api/records/${id}/paper`);
    expect(page.status).toBe(200);
    expect((await api.send('cora', 'GET', `/api/records/${id}/paper`)).status).toBe(403);
    const supplement = (happenedAt: Date, who: 'anna' | 'cora' = 'anna') =>
      api.send(who, 'POST', `/api/records/${id}/supplements`, {
        body: { id: randomUUID(), text: 'The owner found a second freezer.', happenedAt },
      });
    expect((await supplement(hours(-1))).body.code).toBe('supplement-before-visit');
    expect((await supplement(hours(1))).body.code).toBe('supplement-ahead');
    expect((await supplement(api.clock.now, 'cora')).status).toBe(403);
    expect((await supplement(api.clock.now)).status).toBe(201);
    const give = (who: 'lead' | 'owner') =>
      api.send(who, 'POST', `/api/records/${id}/given-out`, {
        body: { id: randomUUID(), to: 'attorney', words: 'Ms. Vale, asked for the file' },
      });
    expect((await give('lead')).status).toBe(403);
    expect((await give('owner')).status).toBe(201);
    const after = (await api.send('lead', 'GET', `/api/records/${id}/after-seal`)).body;
    expect(after).toMatchObject({ supplements: [{ by: CAST.anna.name }], givenOut: [{ to: 'attorney', by: CAST.owner.name }] });
    expect((await api.send('lead', 'GET', `/api/records/${id}/sealed`)).body.seal.holds).toBe(true);
  });
});

it('takes no supplement while the record is open', async () => {
  const id = await start(api, (await siteJob(api, { startsAt: hours(90) })).visitId);
  const body = { id: randomUUID(), text: 'x', happenedAt: api.clock.now };
  expect(await api.send('anna', 'POST', `/api/records/${id}/supplements`, { body })).toMatchObject({
    body: { code: 'supplement-of-open-record' },
  });
  const giving = { id: randomUUID(), to: 'client', words: 'x' };
  expect(await api.send('owner', 'POST', `/api/records/${id}/given-out`, { body: giving })).toMatchObject({
    body: { code: 'record-not-sealed' },
  });
});

describe('danger', () => {
  let job: SiteJob;
  let id: string;
  beforeAll(async () => {
    job = await siteJob(api, { startsAt: hours(30), facts: { foundation: ['crawl_space'], features: ['attic'], panels: 1 } });
    id = await start(api, job.visitId);
  });

  it('a stop closes the steps of its place for both, without another word, until somebody really looks', async () => {
    await does(api, 'anna', id, { do: 'hazard_look', place: 'crawl_space', item: null, stops: ['sewage'] });
    const filled = (await recordOf(api, 'ben', id)).entries.filter((e) => e.filled);
    expect(filled.map((e) => [e.stepKey, e.outcome, e.reason])).toEqual([
      ['crawl-space-safe-to-enter', 'could_not', 'unsafe'],
      ['crawl-space-inside', 'could_not', 'unsafe'],
      ['crawl-space-water-and-pipes', 'could_not', 'unsafe'],
    ]);
    const { steps } = await recordOf(api, 'ben', id);
    expect(steps.filter(({ place }) => place === 'crawl_space').map(({ stepKey }) => stepKey)).toEqual(filled.map((e) => e.stepKey));
    expect(steps.find(({ stepKey }) => stepKey === 'foundation-ventilation')).toMatchObject({ system: 'structure', place: null });
    const step = stepOf(await recordOf(api, 'ben', id), 'crawl-space-inside');
    const look = { outcome: 'from_opening' as const, evidence: null, reason: 'no_way_in' as const, measures: { headroomIn: 16 } };
    const {
      id: _,
      act: __,
      words: ___,
      ...base
    } = act(await recordOf(api, 'ben', id), 'ben', { do: 'danger', what: 'gas', house: 'told', called: false });
    const sent = await enter(api, 'ben', id, [{ ...base, id: randomUUID(), packageId: step.packageId, stepKey: step.stepKey, ...look }]);
    expect(sent.body.results[0]).toMatchObject({ stored: true });
    expect((await recordOf(api, 'ben', id)).entries.filter((e) => e.stepKey === 'crawl-space-inside')).toMatchObject([look]);
  });

  it('to people closes everything, tells office and client once, however often it is sent', async () => {
    const record = await recordOf(api, 'ben', id);
    const met = act(record, 'ben', { do: 'danger', what: 'gas', house: 'told', called: true }, { house: 'Mrs. Prior', called: '911' });
    for (const _ of [1, 2]) expect((await enter(api, 'ben', id, [met])).body.results[0].stored).toBe(true);
    const after = await recordOf(api, 'anna', id);
    expect(after.missing.filter(({ kind }) => kind === 'entry')).toEqual([]);
    const told = (await mails()).filter(({ subject }) => subject.startsWith('Danger'));
    expect(told.map(({ to }) => to)).toEqual(
      expect.arrayContaining([CAST.owner.email, CAST.lead.email, CAST.office.email, `paula-${job.jobId.slice(0, 8)}@test.example`]),
    );
    expect(new Set(told.map(({ to }) => to)).size).toBe(told.length);
  });

  it('alerts the partner when somebody is not back, then the office, then nobody; and not after coming out', async () => {
    const before = api.clock.now;
    const backBy = hours(0.5).toISOString();
    const [one, two] = [
      await does(api, 'anna', id, { do: 'went_in', place: 'attic', backBy }),
      await does(api, 'ben', id, { do: 'went_in', place: 'roof', backBy }),
    ];
    expect([one.warnings, two.warnings]).toEqual([['not-looked'], ['not-looked']]);
    await does(api, 'ben', id, { do: 'came_out', of: two.id });
    expect(await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } })).toMatchObject({
      body: { code: 'still-inside' },
    });
    const alerted = async (at: number): Promise<string[]> => {
      const known = (await mails()).length;
      api.clock.now = hours(at);
      await alertReturns({ database: api.database, runner: api.runner, clock: () => api.clock.now });
      return (await mails()).slice(known).map(({ to }) => to);
    };
    expect(await alerted(0.4)).toEqual([]);
    expect(await alerted(0.51)).toEqual([CAST.ben.email]);
    expect(await alerted(0.55)).toEqual([]);
    expect(await alerted(0.7)).toEqual(expect.arrayContaining([CAST.owner.email, CAST.office.email]));
    expect(await alerted(0.9)).toEqual([]);
    api.clock.now = before;
  });
});

describe('damage and injury', () => {
  it('open a callback of that kind the same hour; what happened to a person is seen by an owner alone', async () => {
    const { visitId, jobId } = await siteJob(api, { startsAt: hours(60) });
    const id = await start(api, visitId);
    const broken = await does(
      api,
      'anna',
      id,
      { do: 'damage', what: 'damage', safety: false },
      { where: 'hall', note: 'lamp knocked over', client: 'Mrs. Prior' },
    );
    const hurt = await does(
      api,
      'ben',
      id,
      { do: 'damage', what: 'injury', safety: false },
      { where: 'stairs', note: 'Ben twisted an ankle' },
    );
    expect([broken.warnings, hurt.warnings]).toEqual([['callback-opened'], ['callback-opened', 'injury-reporting']]);
    const rows = await api.database.read.rows(
      `SELECT c.speaker, c.kind, c.owner_only AS "ownerOnly", k.body AS words FROM callback c JOIN kept_text k ON k.id = c.text_id WHERE c.job_id = $1::uuid ORDER BY c.number`,
      [jobId],
    );
    expect(rows).toMatchObject([
      { speaker: 'pair', kind: 'damage_or_injury', ownerOnly: false, words: expect.stringContaining('lamp knocked over') },
      { kind: 'damage_or_injury', ownerOnly: true, words: expect.stringContaining('twisted an ankle') },
    ]);
    const { acts } = await recordOf(api, 'anna', id);
    expect(acts.map(({ words }) => words.note)).toEqual(['lamp knocked over', undefined]);
  });
});
