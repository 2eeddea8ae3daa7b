// Checks of kit, a piece that fails on site, and the mails about what lapses.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { readLapsing } from '@backsight/usecases/people/readFile';
import { tellLapses } from '@backsight/usecases/people/warnOfLapses';
import { CAST, OFFICE } from '../support/cast.ts';
import { startsOf } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
type Piece = {
  id: string;
  kind: string;
  endedOn: string | null;
  checks: { checkKind: string; doneOn: string | null; dueOn: string | null }[];
};
const pieces = async (kind: string): Promise<Piece[]> =>
  (await api.send('anna', 'GET', '/api/kit')).body.items.filter((item: Piece) => item.kind === kind);
const check = (itemId: string, more: object = {}) =>
  api.send('anna', 'POST', `/api/kit/${itemId}/checks`, {
    body: { id: randomUUID(), checkKind: 'bump_test', onDay: '2026-05-12', passed: true, note: '', ...more },
  });

describe('a vehicle', () => {
  it('is kit with its seats and the longest ladder that it carries', async () => {
    const body = {
      id: randomUUID(),
      officeId: OFFICE,
      kind: 'vehicle',
      serial: 'TC 4471',
      calibratedUntil: null,
      note: '',
      seats: 5,
      ladderFeet: 24,
    };
    expect((await api.send('office', 'POST', '/api/kit', { body })).status).toBe(201);
    expect(await pieces('vehicle')).toContainEqual(expect.objectContaining({ seats: 5, ladderFeet: 24 }));
  });
});

describe('a check', () => {
  it('is noted with its day, and is due again after the time of its kind', async () => {
    const [gas] = await pieces('gas_detector');
    expect(gas!.checks.map(({ checkKind, doneOn }) => [checkKind, doneOn])).toEqual([
      ['battery', null],
      ['bump_test', null],
    ]);
    expect(await check(gas!.id)).toMatchObject({ status: 201, body: { out: false } });
    expect((await pieces('gas_detector'))[0]!.checks[1]).toMatchObject({ doneOn: '2026-05-12', dueOn: '2026-06-11' });
  });
  it('that did not pass takes the piece out of service at once', async () => {
    const [, gas] = await pieces('gas_detector');
    expect((await check(gas!.id, { passed: false, note: 'reads 0' })).body.out).toBe(true);
    expect((await pieces('gas_detector')).find(({ id }) => id === gas!.id)).toMatchObject({ endedOn: '2026-05-12' });
    expect((await check(gas!.id)).body.code).toBe('kit-out-of-service');
  });
  it.each([
    ['that this kind does not need', { checkKind: 'ladder' }, 'kit-check-not-needed'],
    ['of tomorrow', { onDay: '2026-05-13' }, 'kit-check-in-future'],
  ])('%s is refused', async (_, more, code) => expect((await check((await pieces('gas_detector'))[2]!.id, more)).body.code).toBe(code));
  it('is set for a kind by those who keep the kit', async () => {
    const send = (who: 'anna' | 'lead') =>
      api.send(who, 'PUT', '/api/kit-kinds/infrared_camera/checks', { body: { checks: [{ checkKind: 'battery', everyDays: 14 }] } });
    expect((await send('anna')).status).toBe(403);
    expect((await send('lead')).status).toBe(200);
    expect((await pieces('infrared_camera'))[0]!.checks).toMatchObject([{ checkKind: 'battery', everyDays: 14 }]);
  });
  it('is never changed afterwards', async () => {
    await expect(api.database.read.rows(`UPDATE kit_check SET passed = true`)).rejects.toThrow(/permission denied|history_is_kept/);
  });
});

const kitShort = async (): Promise<object[]> =>
  (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'kitShort').items;

describe('a piece that fails on site', () => {
  it('is blocked at once, a swap is proposed, and without a piece nobody is booked', async () => {
    const { visitId } = await bookedVisit(api, {
      startsAt: '2026-05-12T14:00:00Z',
      endsAt: '2026-05-12T17:00:00Z',
      first: CAST.anna.id,
      second: CAST.ben.id,
    });
    const ladders = await pieces('ladder');
    const fail = (id: string) =>
      api.send('anna', 'POST', `/api/kit/${id}/failure`, { body: { id: randomUUID(), note: 'rung cracked', visitId } });
    expect((await fail(ladders[0]!.id)).status).toBe(201);
    expect((await fail(ladders[0]!.id)).body.code).toBe('kit-out-of-service');
    const swaps = (await api.send('anna', 'GET', `/api/kit/${ladders[0]!.id}/swaps?visitId=${visitId}`)).body;
    expect(swaps[0]).toMatchObject({
      from: 'spare',
      sentence: expect.stringMatching(/is free and can fetch a spare one at the office; \d+ min away/),
    });
    expect(swaps.map((s: { people: { name: string }[] }) => s.people[0]!.name)).not.toContain('Anna Inspector');
    expect((await startsOf(api, { fromDay: '2026-05-13', days: 1 })).options.length).toBeGreaterThan(0);
    const { visitId: later } = await bookedVisit(api, {
      startsAt: '2026-05-15T14:00:00Z',
      endsAt: '2026-05-15T17:00:00Z',
      first: CAST.cora.id,
      second: CAST.dan.id,
    });
    // A long ladder is one of the ladders, here too: the last piece serves the pair for both.
    await api.database.transaction(async ({ db }) => {
      await db.visitKit.createMany({ data: ['ladder_28', 'respirator'].map((kind) => ({ visitId: later, kind })) });
      await db.kitItem.update({ where: { id: ladders.at(-1)!.id }, data: { ladderFeet: 28 } });
      await db.kitItem.updateMany({ where: { kind: 'respirator' }, data: { size: 'M' } });
      await db.personSize.updateMany({ where: { kind: 'respirator' }, data: { size: 'M' } });
    });
    expect(await kitShort()).toEqual([]);
    for (const { id } of ladders.slice(1)) await fail(id);
    await api.database.transaction(({ db }) => db.kitItem.updateMany({ where: { kind: 'respirator' }, data: { size: 'L' } }));
    expect(await kitShort()).toMatchObject([
      { title: 'Extension ladder', detail: '1 is needed, 0 in service', day: '2026-05-15' },
      { title: 'Extension ladder of 28 ft and more, for two stories', detail: '1 is needed, 0 in service' },
      { title: 'Respirator, size M', detail: '2 are needed, 0 in service' },
    ]);
    expect((await startsOf(api, { fromDay: '2026-05-13', days: 1 })).options).toEqual([]);
  });
});

describe('what lapses', () => {
  const mails = () =>
    api.database.read.rows<{ to: string; body: string }>(
      `SELECT to_address AS "to", body FROM outgoing_mail WHERE message_key LIKE 'lapses:%' ORDER BY recorded_at, to_address`,
    );
  it('is told once at each stage: the person his own, the office all', async () => {
    const tell = async (at: string) => {
      api.clock.now = new Date(at);
      return tellLapses({ database: api.database, runner: api.runner, clock: () => api.clock.now });
    };
    expect(await tell('2026-05-12T15:00:00Z')).toBe(0);
    await api.send('office', 'POST', `/api/people/${CAST.anna.id}/education`, {
      body: { id: randomUUID(), category: 'x', title: 'y', onDay: '2026-01-10', minutes: 2400, file: null },
    });
    const first = await tell('2026-06-20T15:00:00Z');
    expect(first).toBe(6); // education of two leads, Ben, Cora and Dan (Anna has her hours, Tess holds no license), and a bump test that is due
    expect(await tell('2026-06-21T15:00:00Z')).toBe(0);
    const sent = await mails();
    expect(sent.map(({ to }) => to)).toEqual([
      'ben@test.example',
      'cora@test.example',
      'dan@test.example',
      'lena@test.example',
      'luis@test.example',
      'otto@test.example',
    ]);
    expect(sent[0]!.body).toContain('Mon, Dec 14, 2026: 40 h of 40 h education missing, Ben Inspector');
    expect(sent.at(-1)!.body.match(/education missing/g)).toHaveLength(5);
    expect(await tell('2026-09-20T15:00:00Z')).toBe(5);
    const lapsing = await readLapsing(api.database.read, api.clock.now, 100);
    expect(lapsing).toContainEqual(
      expect.objectContaining({ kind: 'education', who: 'Ben Inspector', on: '2026-12-14', stage: 90, lapsed: false }),
    );
    expect(lapsing).toContainEqual(
      expect.objectContaining({ kind: 'kit_check', what: 'gas-sensor bump test of gas_detector-1', lapsed: true }),
    );
  });
});
