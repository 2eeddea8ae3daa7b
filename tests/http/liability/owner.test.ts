// The owner's page: its numbers against the ledger and against the rows behind them, on random histories, live and made at night; who may see it.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { setReserve, recordClearance, recordRecovery } from '@backsight/usecases/callbacks/callbackMoney';
import { changeJob } from '@backsight/usecases/callbacks/changeJob';
import { payRemedy, reverseEntry } from '@backsight/usecases/callbacks/carryOut';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { holdEvidence } from '@backsight/usecases/callbacks/holds';
import { linkCallback } from '@backsight/usecases/callbacks/linkCallback';
import { acknowledgeCallback, closeCallback, reopenCallback } from '@backsight/usecases/callbacks/moveCallback';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { proposeRemedy } from '@backsight/usecases/callbacks/remedies';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { as, CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { reconcile } from '../../support/reconcile.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { bookedVisit } from '../../support/visits.ts';
import { on, received, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const at = (iso: string): Date => (api.clock.now = new Date(iso));
const night = () => ({ database: api.database, clock: () => api.clock.now });
const get = (who: 'owner' | 'lead' | 'office' | 'anna', path: string) => api.send(who, 'GET', `/api/liability${path}`);
const page = async (who: 'owner' | 'lead' = 'owner') => (await get(who, '')).body;

describe('a firm without work', () => {
  it('is shown as nothing, and what cannot be estimated says why', async () => {
    const empty = await page();
    expect(empty.money.ever).toEqual({ paidCents: 0, reservedCents: 0, recoveredCents: 0, incurredCents: 0 });
    expect(empty).toMatchObject({ months: [], open: [], waiting: [], held: { jobs: 0 }, windows: { jobs: 0 }, leftOut: false });
    for (const one of [empty.toCome, empty.cash.days30, empty.cash.days90])
      expect(one).toEqual({ ok: false, sentence: expect.stringMatching(/^Cannot be estimated because .+\.$/) });
    await rebuildFigures(night());
    expect({ ...(await page()), cash: empty.cash }).toEqual(empty);
    expect((await get('owner', '/windows')).body).toMatchObject({ months: [], withoutRule: 0, total: { jobs: 0 } });
    expect((await get('owner', '/entries')).body).toMatchObject({ items: [], next: null });
  });
  it.each([
    '',
    '/entries',
    '/open-callbacks',
    '/callbacks?inspected=2026-05',
    '/overrides',
    '/held-jobs',
    '/cash',
    '/windows',
    '/windows/jobs',
    '/unsigned-starts',
  ])('is for owner and lead inspector alone: %s', async (path) => {
    for (const who of ['office', 'anna'] as const) {
      const answer = await get(who, path);
      expect([answer.status, answer.body.code, Object.keys(answer.body).some((key) => /cents|money|reserve/i.test(key))]).toEqual([
        403,
        'not-allowed',
        false,
      ]);
    }
    expect((await get('lead', path)).status).toBe(200);
  });
  it('says what is wrong with an address', async () => {
    for (const [path, field] of [
      ['/entries?from=2026-02-30', 'from'],
      ['/entries?inspected=2026-13', 'inspected'],
      ['/windows/jobs?only=nothing', 'only'],
      ['/open-callbacks?age=older-still', 'age'],
    ])
      expect(await get('owner', path!)).toMatchObject({ status: 422, body: { code: 'not-valid', field } });
  });
});

/** The same numbers every time: a linear congruence of Numerical Recipes. */
function chance(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 4294967296) * below);
  };
}

/** The last is still to come. */
let jobs: string[] = [];
let first: Visited;
const callbacks: string[] = [];
/** Acts may be refused by their rules: then nothing happened. */
const run = async (act: unknown, input: object, who: 'owner' | 'lead' = 'owner'): Promise<boolean> =>
  (await api.runner.run(act as never, input as never, { actor: as(who) })).ok;

/** Null where the rules refuse it: a near-miss before the visit, a paper without its day. */
async function takeIn(jobId: string, kind: string): Promise<string | null> {
  const id = randomUUID();
  const said = { speaker: 'client', safety: false, system: 'electrical', place: 'garage', remedySought: '', words: 'No power' };
  return (await run(receiveCallback, { id, jobId, kind, ...said })) ? id : null;
}

/** Acknowledged, concluded, cleared: money may leave. */
async function ready(jobId: string): Promise<string> {
  const id = (await takeIn(jobId, 'damage_or_injury'))!;
  await run(acknowledgeCallback, { id });
  await run(concludeCallback, { id, conclusionId: randomUUID(), cause: 'damaged_on_visit' });
  await run(recordClearance, { id, kind: 'owner_reason', words: 'Below the deductible' });
  return id;
}

async function pay(id: string, cents: number): Promise<string | null> {
  const remedyId = randomUUID();
  await run(proposeRemedy, { id, remedyId, kind: 'goodwill_payment', cents, payee: 'S. Seller' });
  const day = new Intl.DateTimeFormat('en-CA', { timeZone: 'America/Chicago' }).format(api.clock.now);
  return (await run(payRemedy, { remedyId, paidOn: day })) ? remedyId : null;
}

const lastEntry = async (id: string, kinds: string[]): Promise<string> =>
  (
    await api.database.read.rows<{ id: string }>(
      'SELECT e.id::text AS id FROM ledger_entry e JOIN ledger_line l ON l.entry_id = e.id WHERE l.callback_id = $1::uuid AND e.kind = ANY ($2::text[]) ORDER BY e.recorded_at DESC, e.id DESC LIMIT 1',
      [id, kinds],
    )
  )[0]?.id ?? randomUUID();

/** The oldest that fits; where none does, one that is not there. */
const oneWhere = async (fits: string): Promise<string> =>
  (await api.database.read.rows<{ id: string }>(`SELECT id::text AS id FROM callback c WHERE ${fits} ORDER BY number LIMIT 1`))[0]?.id ??
  randomUUID();

/** Taken in under the wrong job, moved to the right one, and money set aside there: with money it moves no more. */
async function wrongJob(pick: Pick): Promise<boolean> {
  const id = await takeIn(jobs[pick(jobs.length - 1)]!, 'missed');
  if (id === null) return false;
  callbacks.push(id);
  const moved = await run(changeJob, { id, jobId: jobs[pick(jobs.length - 1)]!, words: 'The wrong job' });
  await run(setReserve, { id, cents: 4_321, words: 'x' });
  return moved;
}

/** The same said once more: counted once. */
async function twin(of: string): Promise<boolean> {
  const [row] = await api.database.read.rows<{ jobId: string }>('SELECT job_id::text AS "jobId" FROM callback WHERE id = $1::uuid', [of]);
  const id = await takeIn(row!.jobId, 'missed');
  if (id === null) return false;
  callbacks.push(id);
  return run(linkCallback, { id, link: { kind: 'duplicate', to: of }, words: 'The same' });
}

/** Concluded by somebody who was on the job: it waits for somebody who was not. */
async function ownConclusion(): Promise<boolean> {
  const id = (await takeIn(jobs[1]!, 'damage_or_injury'))!;
  await run(acknowledgeCallback, { id });
  return run(concludeCallback, { id, conclusionId: randomUUID(), cause: 'damaged_on_visit' }, 'lead');
}

const keep = (id: string | null): boolean => id !== null && callbacks.push(id) > 0;
type Pick = (below: number) => number;
type Played = (pick: Pick, id: string) => Promise<unknown>;
/** Those that happened. */
const worked = new Set<Played>();
const setAside: Played = (pick, id) => run(setReserve, { id, cents: pick(60) * 731, words: 'x' });
const payOut: Played = (pick, id) => pay(id, 100 + pick(30_000));
const takeBack: Played = async (_, id) =>
  run(reverseEntry, { entryId: await lastEntry(id, ['callback_payment', 'recovery']), words: 'A mistake' });
const ACTS: Played[] = [
  ...[setAside, setAside, payOut, payOut, takeBack, takeBack],
  async (pick) => keep(await ready(jobs[pick(jobs.length - 1)]!)),
  async (pick) => keep(await takeIn(jobs[pick(jobs.length)]!, ['missed', 'question', 'near_miss', 'fee'][pick(4)]!)),
  (pick, id) => run(proposeRemedy, { id, remedyId: randomUUID(), kind: 'goodwill_payment', cents: 100 + pick(900), payee: 'S. Seller' }),
  async (pick, id) =>
    run(recordRecovery, { id, cents: 1 + pick(900), receivedOn: '2026-05-13', words: 'x', source: 'insurer', direct: false }),
  (_, id) => twin(id),
  (pick) => wrongJob(pick),
  async () => {
    const id = await oneWhere(
      "state = 'concluded' AND NOT EXISTS (SELECT FROM remedy r WHERE r.callback_id = c.id AND r.state IN ('proposed', 'approved'))",
    );
    await run(setReserve, { id, cents: 0, words: 'x' });
    return run(closeCallback, { id, words: 'Done' });
  },
  async () => run(reopenCallback, { id: await oneWhere("state = 'closed'"), words: 'It came back' }),
  (pick) => run(holdEvidence, { jobId: jobs[pick(jobs.length)], holdId: randomUUID(), words: 'A letter may come' }),
];

describe('random histories', () => {
  beforeAll(async () => {
    at('2026-04-14T15:00:00Z');
    first = await visited(api);
    const unsigned = await siteJob(api, { startsAt: new Date('2026-05-05T14:00:00Z'), signed: false, pair: ['lead', 'dan'] });
    await api.database.transaction(async ({ db }) => {
      await db.insurancePolicy.updateMany({ where: { kind: 'general' }, data: { endsOn: new Date('2026-06-30') } });
      const opened = new Date('2026-05-05T14:00:00Z');
      await db.visit.update({ where: { id: unsigned.visitId }, data: { state: 'done' } });
      await db.siteRecord.create({
        data: { id: randomUUID(), visitId: unsigned.visitId, state: 'open', openedAt: opened, recordedAt: opened },
      });
      await db.gateOverride.create({
        data: {
          id: randomUUID(),
          visitId: unsigned.visitId,
          missing: ['signature'],
          reason: 'Signs at noon',
          actorId: CAST.owner.id,
          happenedAt: opened,
          recordedAt: opened,
        },
      });
    });
    jobs = [first.jobId, unsigned.jobId];
    for (const day of ['2019-03-04', '2024-02-29', '2025-01-14', '2025-05-13', '2026-01-31', '2026-03-03']) {
      const { jobId } = await bookedVisit(api, {
        startsAt: `${day}T20:00:00Z`,
        endsAt: `${day}T23:00:00Z`,
        first: CAST.anna.id,
        second: CAST.ben.id,
        state: 'done',
      });
      jobs.push(jobId);
    }
    const pair = { first: CAST.anna.id, second: CAST.ben.id };
    jobs.push((await bookedVisit(api, { startsAt: '2026-06-16T14:00:00Z', endsAt: '2026-06-16T17:00:00Z', ...pair })).jobId);
  });
  it.each([17, 4711])('reconcile to the cent, live and made at night (seed %i)', async (seed) => {
    at(seed === 17 ? '2026-05-13T15:00:00Z' : '2026-05-28T15:00:00Z');
    const pick = chance(seed);
    // Every act twice, in an order by chance.
    const deck = [...ACTS, ...ACTS].map((played) => ({ played, at: pick(1_000_000) })).toSorted((a, b) => a.at - b.at);
    for (const [act, { played }] of deck.entries()) {
      api.clock.now = new Date(api.clock.now.getTime() + pick(240) * 60_000);
      if (callbacks.length < 3) callbacks.push(await ready(jobs[pick(jobs.length - 1)]!));
      if (await played(pick, callbacks[pick(callbacks.length)]!)) worked.add(played);
      if (act === 12) await rebuildFigures(night());
    }
    if (seed !== 17)
      expect(
        ACTS.filter((played) => !worked.has(played)),
        'acts that never happened',
      ).toEqual([]);
    if (seed !== 17) expect(await ownConclusion()).toBe(true);
    const live = await page();
    if (seed === 17) expect(await reconcile(api.database.read, api.clock.now)).toBeGreaterThan(40);
    at(new Date(api.clock.now.getTime() + 86_400_000).toISOString());
    const { cash: _live, ...before } = await page();
    await rebuildFigures(night());
    const { cash: _night, ...made } = await page();
    expect(made).toEqual(before);
    expect(live.money.ever).toEqual(made.money.ever);
    if (seed !== 17) await reconcile(api.database.read, api.clock.now);
  });
  it('follow a fee that was given back, taken back and given back again', async () => {
    const before = (await page()).money.ever;
    const id = await ready(first.jobId);
    const remedyId = (await pay(id, 12_345))!;
    await run(reverseEntry, { entryId: await lastEntry(id, ['callback_payment']), words: 'Wrong account' });
    expect((await page()).money.ever).toEqual(before);
    const day = new Intl.DateTimeFormat('en-CA', { timeZone: 'America/Chicago' }).format(api.clock.now);
    expect(await run(payRemedy, { remedyId, paidOn: day })).toBe(true);
    expect((await page()).money.ever).toEqual({
      ...before,
      paidCents: before.paidCents + 12_345,
      incurredCents: before.incurredCents + 12_345,
    });
    const { items } = (await get('owner', '/entries?inspected=2026-04')).body;
    expect(
      items
        .filter((row: { callbackId: string }) => row.callbackId === id)
        .map((row: { paidCents: number }) => row.paidCents)
        .sort(),
    ).toEqual([-12_345, 12_345, 12_345]);
  });
});

describe('a file that the owner keeps', () => {
  it('is in no sum that a lead inspector sees, and the page says that something is left out', async () => {
    const before = await page('lead');
    const seen = await page();
    const id = await received(api, first, {
      kind: 'demand_or_suit',
      servedOn: '2026-05-04',
      serviceWay: 'in_person',
      deadlineOn: '2026-07-01',
    });
    const set = await on(api, 'owner', id, 'reserve', { cents: 77_700, words: 'Counsel' });
    expect(set.status, JSON.stringify(set.body)).toBe(201);
    const after = await page('lead');
    expect((await page()).money.ever.reservedCents).toBe(seen.money.ever.reservedCents + 77_700);
    expect(after.leftOut).toBe(true);
    const { leftOut: _, ...shown } = after;
    const { leftOut: _before, ...was } = before;
    expect(shown).toEqual(was);
    expect((await get('lead', '/entries')).body.items.some((row: { callbackId: string }) => row.callbackId === id)).toBe(false);
    expect((await get('owner', '/entries')).body.items.some((row: { callbackId: string }) => row.callbackId === id)).toBe(true);
    await rebuildFigures(night());
    expect((await page('lead')).money.ever).toEqual(before.money.ever);
  });
});
