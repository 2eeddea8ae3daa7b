// Looking through callbacks over HTTP: the steps that one may be traced to, and lists of them.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { execute } from '@backsight/store/database';
import { findInForce } from '@backsight/store/procedures';
import { approveDrafts, closePeriod, openPeriods, saveDrafts, saveStepKeys, saveSteps } from '@backsight/store/procedures/save';
import { readLikely } from '@backsight/usecases/callbacks/readLikely';
import { GROUND_FAULT_STEPS_REVISED } from '../../../prisma/seed/procedures/groundFaultRevision.ts';
import { HELD_OUT } from '../../bench/complaints.ts';
import { bookSteps, placeOf, share } from '../../bench/labelled.ts';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

type Step = { stepKey: string; reasons: string[] };
const look = async (who: CastName, id: string, q = '') => (await api.send(who, 'GET', `/api/callbacks/${id}/likely${q}`)).body;
const keys = (steps: Step[]): string[] => steps.map(({ stepKey }) => stepKey);

/** A revision of the electrical procedure, in force at once, with steps that were not in it before; made once. */
async function askMore(): Promise<void> {
  const at = (api.clock.now = new Date(api.clock.now.getTime() + 60_000));
  const old = (await findInForce(api.database.read, at)).find(({ procedureKey }) => procedureKey === 'electrical')!;
  if (old.steps.some(({ key }) => key === 'live-receptacles-after')) return;
  const [id, procedureId] = [randomUUID(), old.procedureId];
  const steps = [...old.steps.filter(({ key }) => key !== 'ground-fault-trip-reset'), ...GROUND_FAULT_STEPS_REVISED];
  const draft = { id, procedureId, number: 2, reason: 'x', basedOnId: old.revisionId, authorId: CAST.lead.id, recordedAt: at };
  await api.database.transaction(async (tx) => {
    await saveDrafts(tx, [draft]);
    const named = GROUND_FAULT_STEPS_REVISED.map(({ key, derivedFrom }) => ({ key, procedureId, derivedFrom: derivedFrom ?? null }));
    await saveStepKeys(tx, named);
    await saveSteps(tx, [{ revisionId: id, steps }]);
    const acknowledgeBy = new Date(at.getTime() + 3 * 86_400_000);
    await approveDrafts(tx, [id], { approverId: CAST.owner.id, approvedAt: at, inForceFrom: at, acknowledgeBy });
    await closePeriod(tx, procedureId, at);
    await openPeriods(tx, [{ id: randomUUID(), procedureId, revisionId: id, fromAt: at }]);
  });
}

describe('likely steps', () => {
  it('are ranked from words, spelling and trade words, with the reasons; steps that did not apply are not offered', async () => {
    const id = await received(api, job, { words: 'The outlett by the freezer is dead since they pushed the button in the bath.' });
    const found = await look('lead', id);
    expect(found.handedOut).toBeGreaterThan(80);
    const [trip] = found.likely;
    expect(trip.stepKey).toBe('ground-fault-trip-reset');
    expect(trip.procedureTitle).toBe('Electrical');
    expect(trip.reasons.join()).toMatch(/its words: button.*outlett \(plug\).*belongs to the system that was named/);
    expect(keys(found.likely).length).toBeLessThanOrEqual(5);
    // A house with a basement, gas and no pool: neither crawl space nor oil burner nor pool barrier was handed out.
    const other = await received(api, job, {
      system: 'other',
      place: 'all over',
      words: 'The crawl space is wet, the oil burner smells, the pool gate is open.',
    });
    const offered = keys((await look('owner', other)).likely);
    expect(offered.length).toBeGreaterThan(0);
    for (const key of ['crawl-space-inside', 'oil-burner-signs', 'pool-barrier']) expect(offered).not.toContain(key);
  });

  it('find any other step of the job by a search, in any spelling, and say when there is none', async () => {
    const id = await received(api, job);
    expect(keys((await look('lead', id, '?q=furnance')).likely)).toContain('furnace-rise');
    expect(keys((await look('lead', id, '?q=smoke%20detecter')).likely)[0]).toBe('smoke-alarms');
    expect((await look('lead', id, '?q=zebra')).likely).toEqual([]);
    expect((await look('lead', id, `?q=${encodeURIComponent("&|!(:*<->\\'")}`)).likely).toEqual([]);
    for (const q of [`?q=${'x'.repeat(10_000)}`, '?q=%20', '?q=a%00b', '?words=x'])
      expect((await api.send('lead', 'GET', `/api/callbacks/${id}/likely${q}`)).status, q.slice(0, 20)).toBe(422);
    expect((await api.send('lead', 'GET', `/api/callbacks/${randomUUID()}/likely`)).status).toBe(404);
  });

  it('are for owner and lead inspector alone, and a look writes nothing', async () => {
    const id = await received(api, job);
    for (const who of ['office', 'anna'] as const) expect((await api.send(who, 'GET', `/api/callbacks/${id}/likely`)).status).toBe(403);
    const rows = async () => {
      const tables = await api.database.read.rows<{ name: string }>(
        `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' ORDER BY 1`,
      );
      const counts = tables.map(({ name }) => `SELECT '${name}' AS name, count(*)::int AS n FROM "${name}"`).join(' UNION ALL ');
      return api.database.read.rows(`SELECT * FROM (${counts}) t ORDER BY name`);
    };
    const before = await rows();
    expect((await look('lead', id)).likely.length).toBeGreaterThan(0);
    expect(await rows()).toEqual(before);
    const within = await api.database.transaction(async (tx) => {
      await execute(tx, 'SET TRANSACTION READ ONLY');
      return readLikely(tx, { id, words: null, roles: ['owner'], now: api.clock.now });
    });
    expect(within!.likely.length).toBeGreaterThan(0);
  });

  it('count earlier cases, but for a lead never those that only the owner sees', async () => {
    const words = 'Somebody left the cover of the breaker box hanging by one screw, a child reached in.';
    const hidden = await received(api, job, { words, ownerOnly: true });
    await on(api, 'owner', hidden, 'acknowledge');
    const step = {
      conclusionId: randomUUID(),
      cause: 'skipped',
      stepKey: 'locked-and-keys-back',
      words: 'Told in confidence: screw, hanging cover.',
    };
    expect((await on(api, 'owner', hidden, 'conclusion', step)).status).toBe(201);
    const again = await received(api, job, { words, place: 'basement' });
    const { number } = (await api.send('owner', 'GET', `/api/callbacks/${hidden}`)).body;
    expect(JSON.stringify((await look('owner', again)).likely)).toContain(`like what was traced here before (${number})`);
    expect(JSON.stringify(await look('lead', again))).not.toMatch(new RegExp(`${number}|locked-and-keys-back`));
    await concluded(api, job, { cause: 'unclear' });
    expect(JSON.stringify(await look('lead', await received(api, job)))).toMatch(/like what was traced here before/);
  });

  it('show apart what the procedures ask only since then, which cannot be concluded', async () => {
    const id = await received(api, job, {
      words: 'Outlets in the garage stayed dead after the ground-fault test: nobody counted the live receptacles.',
    });
    expect((await look('lead', id)).notThen).toEqual([]);
    await askMore();
    const found = await look('lead', id);
    expect(keys(found.notThen)).toContain('live-receptacles-after');
    expect(keys(found.likely)).not.toContain('live-receptacles-after');
    await on(api, 'office', id, 'acknowledge');
    const named = { conclusionId: randomUUID(), cause: 'skipped', stepKey: 'live-receptacles-after' };
    expect((await on(api, 'lead', id, 'conclusion', named)).body.code).toBe('step-not-on-this-job');
  });

  it('are right in plain words that no weight was tuned on: among three in nine of ten', async () => {
    const steps = await bookSteps(api.database.read, new Date('2026-05-12T15:00:00Z'));
    const places: number[] = [];
    for (const complaint of HELD_OUT) places.push(await placeOf(api.database.read, steps, complaint));
    expect(HELD_OUT.length).toBeGreaterThanOrEqual(40);
    expect(share(places, 3)).toBeGreaterThanOrEqual(0.9);
    expect(share(places, 1)).toBeGreaterThanOrEqual(0.75);
  });
});

describe('lists', () => {
  type Line = { id: string; number: number };
  const list = async (query: string, who: CastName = 'lead') => {
    const answer = await api.send(who, 'GET', `/api/callbacks?${query}`);
    expect(answer.status, JSON.stringify(answer.body)).toBe(200);
    return answer.body.items.map(({ id }: Line) => id) as string[];
  };
  const groups = async (query: string, who: CastName = 'lead') => (await api.send(who, 'GET', `/api/callbacks/groups?${query}`)).body;
  let [roof, fee, hidden, traced] = ['', '', '', ''];
  beforeAll(async () => {
    roof = await received(api, job, {
      system: 'roof',
      place: 'north slope',
      safety: true,
      words: '=Shingles blew off, and the gutters, "all" of them, hang.',
    });
    fee = await received(api, job, { kind: 'fee', speaker: 'client', words: 'We were charged twice.' });
    hidden = await received(api, job, { words: 'Shingles, told to the owner alone.', ownerOnly: true });
    traced = await concluded(api, job, { cause: 'unclear', stepKey: 'smoke-alarms', words: 'Two ways to read it, in confidence.' });
    await on(api, 'owner', traced, 'reserve', { cents: 12_300, words: 'An estimate.' });
  });

  it.each([
    ['system=roof', () => roof],
    ['kind=fee', () => fee],
    ['safety=yes', () => roof],
    ['step=smoke-alarms', () => traced],
    ['step=smoke-alarms&cause=unclear&state=concluded', () => traced],
    ['q=shingle', () => roof],
    ['q=GUTTER%20-garage', () => roof],
    ['q=north%20slo', () => roof],
    ['q=charged&speaker=client', () => fee],
  ])('%s finds the one', async (query, id) => expect(await list(`which=all&${query}`)).toEqual([id()]));

  it('narrow by people, months, numbers and what is overdue; what only the owner sees is in no list, count or table of others', async () => {
    const all = await list('which=all');
    expect(await list(`which=all&person=${CAST.anna.id}&pair=${CAST.anna.id},${CAST.ben.id}&received=2026-05&inspected=2026-05`)).toEqual(
      all,
    );
    for (const none of [
      `person=${CAST.cora.id}`,
      `pair=${CAST.anna.id}`,
      'received=2026-04',
      'inspected=2025-05',
      'step=zebra',
      'q=zebra',
      'before=1',
    ])
      expect(await list(`which=all&${none}`), none).toEqual([]);
    const { number } = (await api.send('lead', 'GET', `/api/callbacks/${roof}`)).body;
    expect(await list(`which=all&q=${number}`)).toEqual([roof]);
    expect(await list('which=all&overdue=yes')).toEqual([]);
    expect(await list('which=all&q=shingles', 'owner')).toEqual([hidden, roof]);
    const count = (rows: { callbacks: number }[]) => rows.reduce((sum, { callbacks }) => sum + callbacks, 0);
    expect(count(await groups('which=all&by=system'))).toBe(all.length);
    expect(count(await groups('which=all&by=system', 'owner'))).toBeGreaterThan(all.length);
    expect((await api.send('lead', 'GET', '/api/callbacks/table.csv?which=all&opinions=yes')).body).not.toContain(
      'told to the owner alone',
    );
  });

  it('turn pages by number without a gap or a double', async () => {
    const whole = await list('which=all');
    const rest = async (before: number) => list(`which=all&before=${before}`);
    const numbers = (await api.send('lead', 'GET', '/api/callbacks?which=all')).body.items.map(({ number }: Line) => number);
    expect(numbers).toEqual([...numbers].sort((a: number, b: number) => b - a));
    expect([...whole.slice(0, 3), ...(await rest(numbers[2]))]).toEqual(whole);
    const open = await list('which=open');
    expect(open.filter((id) => !whole.slice(0, 3).includes(id)).sort()).toEqual((await list(`which=open&before=${numbers[2]}`)).sort());
    const wrong = await api.send('lead', 'GET', '/api/callbacks?received=May');
    expect(wrong).toMatchObject({ status: 422, body: { field: 'received', title: 'received: must be a month like 2026-05' } });
  });

  it.each(['system', 'received', 'inspected', 'pair', 'step', 'cause'])(
    'count by %s, each group as many as its list, money with it',
    async (by) => {
      const found = await groups(`which=all&by=${by}`);
      const narrow = (key: string) => `${by}=${key}`;
      expect(found.length).toBeGreaterThan(0);
      for (const { key, callbacks } of found.filter((one: { key: string }) => one.key !== ''))
        expect((await list(`which=all&${narrow(key)}`)).length, key).toBe(callbacks);
      expect(found.reduce((sum: number, { money }: { money: { reservedCents: number } }) => sum + money.reservedCents, 0)).toBe(12_300);
      if (by === 'pair') expect(found.map(({ label }: { label: string }) => label)).toEqual(['Anna Inspector, Ben Inspector']);
      const alarms = { label: expect.stringMatching(/: Smoke alarms/), procedureId: expect.any(String) };
      if (by === 'step') expect(found.find(({ key }: { key: string }) => key === 'smoke-alarms')).toMatchObject(alarms);
    },
  );

  it('take a step for its whole line: what was traced to a part of it, which a later revision asks, counts with it', async () => {
    await askMore();
    const [whole, part, stepKey] = [await concluded(api, job, { cause: 'skipped' }), await received(api, job), 'live-receptacles-after'];
    await api.database.transaction(async (tx) => {
      const row = await tx.db.conclusion.findFirstOrThrow({ where: { callbackId: whole } });
      const { revisionId } = await tx.db.revisionStep.findFirstOrThrow({ where: { stepKey } });
      await tx.db.conclusion.create({ data: { ...row, id: randomUUID(), callbackId: part, stepKey, revisionId } });
    });
    const line = { key: 'ground-fault-trip-reset', callbacks: 2, label: expect.stringMatching(/^Electrical: /) };
    expect(await groups('which=all&by=step&cause=skipped')).toMatchObject([line]);
    for (const step of [line.key, stepKey]) expect(await list(`which=all&cause=skipped&step=${step}`), step).toEqual([part, whole]);
  });

  it('keep conclusions and money from the office, and everything from inspectors', async () => {
    const open = await groups('which=all&by=system', 'office');
    expect(open.length).toBeGreaterThan(0);
    expect(JSON.stringify(open)).not.toContain('money');
    for (const query of [
      '?cause=unclear',
      '?step=smoke-alarms',
      `?revision=${randomUUID()}`,
      '/groups?by=cause',
      '/groups?by=step',
      '/table.csv?opinions=yes',
      '/table.csv?money=yes',
    ])
      expect((await api.send('office', 'GET', `/api/callbacks${query}`)).body.code, query).toBe('not-allowed');
    for (const path of ['', '/groups?by=pair', '/table.csv'])
      expect((await api.send('anna', 'GET', `/api/callbacks${path}`)).status).toBe(403);
  });

  it('go out as a table (RFC 4180) that no spreadsheet runs, with opinions and money only when they are asked for', async () => {
    const get = async (who: CastName, more: string) =>
      (await api.send(who, 'GET', `/api/callbacks/table.csv?which=all${more}`)).body as string;
    const facts = await get('office', '&system=roof');
    expect(facts.split('\r\n')).toHaveLength(3);
    expect(facts).toContain(`,"'=Shingles blew off, and the gutters, ""all"" of them, hang.",`);
    const plain = await get('owner', '');
    expect(plain).not.toMatch(/in confidence|123\.00|cause/);
    const whole = await get('owner', '&step=smoke-alarms&opinions=yes&money=yes');
    expect(whole.split('\r\n')[0]).toBe(
      'number,kind,state,danger,received on,who speaks,name,system,place,words,job,inspected on,pair,address,town,cause,traced step,step key,revision,reasons,concluded by,paid,set aside,recovered,incurred',
    );
    expect(whole).toMatch(
      /procedure unclear,.*,smoke-alarms,1,"Two ways to read it, in confidence.",Lena Lead,0.00,123.00,0.00,123.00\r\n$/,
    );
  });

  it.each([
    ['colour=red', 422],
    ['kind=zebra', 422],
    ['which=some', 422],
    ['received=2026-13', 422],
    ['person=anna', 422],
    ['pair=anna,ben', 422],
    ['overdue=maybe', 422],
    ['before=0', 422],
    ['before=x', 422],
    [`q=${'x'.repeat(10_000)}`, 422],
    ['q=a%00b', 422],
    [`q=${encodeURIComponent(`"'& | ! ( ) :* <-> \\ % _ -`)}`, 200],
    ['q=a%20OR%20-b%20%22', 200],
  ])('%.40s: %i, told in words', async (query, status) => {
    for (const path of ['/api/callbacks?', '/api/callbacks/table.csv?']) {
      if (path.includes('table') && query.startsWith('before')) continue;
      const answer = await api.send('owner', 'GET', `${path}${query}`);
      expect(answer.status, JSON.stringify(answer.body)).toBe(status);
      if (status === 422) expect(JSON.stringify(answer.body)).toContain(query.split('=')[0]!);
    }
  });
});
