// What phones send after a day without signal: batches in which some entries do not fit, records that were opened without asking, two phones.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Ahead } from '@backsight/contract/sitework/ahead';
import type { NewEntry } from '@backsight/contract/sitework';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordOf, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
const HOUR = 3_600_000;
const hours = (n: number): Date => new Date(new Date('2026-05-12T15:00:00Z').getTime() + n * HOUR);
const send = (who: CastName, id: string, body: object) => api.send(who, 'POST', `/api/records/${id}/entries`, { body });
const codes = (reply: { body: { results: { id: string; code: string | null }[] } }, ids: readonly string[]) =>
  ids.map((id) => reply.body.results.find((r) => r.id === id)?.code);

describe('a batch in which some entries do not fit', () => {
  let id: string;
  let visitId: string;
  beforeAll(async () => {
    ({ visitId } = await siteJob(api, { startsAt: hours(5) }));
    id = await start(api, visitId, 'anna');
  });

  it('answers each by itself and takes the rest', async () => {
    const record = await recordOf(api, 'anna', id);
    const reading = record.steps.find(({ evidence }) => evidence.kind === 'reading')!;
    const unit = (reading.evidence as { unit: string }).unit;
    const plain = stepOf(record, 'animals-secured');
    const entries: [string | null, NewEntry | object][] = [
      ['entry-unit', answer(reading, 'anna', { evidence: { kind: 'reading', value: 50, unit: 'furlongs' } })],
      ['entry-impossible', answer(reading, 'anna', { evidence: { kind: 'reading', value: -900, unit } })],
      ['entry-unreadable', { ...answer(reading, 'anna'), evidence: { kind: 'reading', value: 'much', unit } }],
      ['entry-unreadable', { id: randomUUID(), outcome: 'well' }],
      ['observer-not-on-visit', answer(plain, 'cora')],
      ['step-not-in-package', answer({ ...plain, stepKey: 'a-step-of-another-revision' }, 'anna')],
      ['package-unknown', answer({ ...plain, packageId: randomUUID() }, 'anna')],
      [null, answer(plain, 'anna')],
    ];
    const reply = await send('anna', id, { entries: entries.map(([, entry]) => entry) });
    expect(reply.status).toBe(201);
    const ids = entries.map(([, entry]) => (entry as { id: string }).id);
    expect(codes(reply, ids)).toEqual(entries.map(([code]) => code));
    const unreadable = reply.body.results.find((r: { id: string }) => r.id === ids[2]);
    expect(unreadable).toMatchObject({ field: 'evidence.value', sentence: expect.stringContaining('cannot be taken') });
  });

  it('of 10,000 takes what one time can hold, asks for the rest again, and doubles nothing', async () => {
    const step = stepOf(await recordOf(api, 'anna', id), 'animals-secured');
    const entries = Array.from({ length: 10_000 }, (_, at) => answer(step, 'anna', { deviceSeq: 10_000 + at }));
    const reply = await api.send('anna', 'POST', `/api/records/${id}/entries`, { body: { entries }, once: true, key: randomUUID() });
    expect(reply.status).toBe(201);
    const wanted = entries.map((_, at) => (at < 200 ? null : 'batch-full'));
    expect(
      codes(
        reply,
        entries.map((e) => e.id),
      ),
    ).toEqual(wanted);
    const next = await send('anna', id, { entries: entries.slice(190, 210) });
    expect(next.body.results.every((r: { stored: boolean }) => r.stored)).toBe(true);
    const [row] = await api.database.read.rows<{ n: number }>(
      'SELECT count(*)::int AS n FROM step_entry WHERE record_id = $1::uuid AND device_seq >= 10000',
      [id],
    );
    expect(row!.n).toBe(210);
  }, 60_000);

  it('from a phone that is known under another name takes nothing new', async () => {
    const [mine, his] = [randomUUID(), randomUUID()];
    const step = stepOf(await recordOf(api, 'anna', id), 'animals-secured');
    const first = answer(step, 'anna');
    const sentAt = api.clock.now.toISOString();
    expect(codes(await send('anna', id, { deviceId: mine, sentAt, entries: [first] }), [first.id])).toEqual([null]);
    const other = answer(step, 'ben');
    expect(codes(await send('ben', id, { deviceId: mine, sentAt, entries: [other, first] }), [other.id, first.id])).toEqual([
      'device-of-another',
      null,
    ]);
    expect(codes(await send('ben', id, { deviceId: his, sentAt, entries: [other] }), [other.id])).toEqual([null]);
  });

  it('keeps the clock of the phone, that of the service, and the difference, and sets right when it was seen; the newest counts though its clock says otherwise', async () => {
    const step = stepOf(await recordOf(api, 'anna', id), 'service-rating');
    const at = (ms: number) => new Date(api.clock.now.getTime() + ms).toISOString();
    const late = answer(step, 'anna', { note: 'second look', writtenAt: at(-7 * HOUR - 60_000), observedAt: at(-7 * HOUR) });
    await send('ben', id, { deviceId: randomUUID(), sentAt: at(-7 * HOUR), entries: [late] });
    const early = answer(step, 'anna', { note: 'first look', writtenAt: at(5 * HOUR - 600_000), observedAt: at(5 * HOUR) });
    await send('anna', id, { deviceId: randomUUID(), sentAt: at(5 * HOUR), entries: [early] });
    const standing = (await recordOf(api, 'ben', id)).entries.filter((e) => e.stepKey === 'service-rating');
    expect(standing.map(({ note, writtenBy }) => [note, writtenBy])).toEqual([['second look', CAST.ben.id]]);
    const rows = await api.database.read.rows(
      'SELECT written_at AS written, clock_offset_ms::float8 AS offset, recorded_at AS recorded, observed_at AS observed, observed_approx AS about FROM step_entry WHERE id = ANY($1::uuid[]) ORDER BY written_at',
      [[late.id, early.id]],
    );
    expect(rows).toEqual([
      { written: new Date(at(-7 * HOUR - 60_000)), offset: 7 * HOUR, recorded: api.clock.now, observed: api.clock.now, about: true },
      { written: new Date(at(5 * HOUR - 600_000)), offset: -5 * HOUR, recorded: api.clock.now, observed: api.clock.now, about: true },
    ]);
  });

  it('is taken from one who was in the pair when the record was handed out', async () => {
    const step = stepOf(await recordOf(api, 'ben', id), 'animals-secured');
    await api.database.transaction((tx) =>
      tx.db.assignment.updateMany({ where: { visitId, personId: CAST.ben.id }, data: { personId: CAST.cora.id } }),
    );
    expect((await enter(api, 'ben', id, [answer(step, 'ben')])).body.results[0].stored).toBe(true);
    expect((await enter(api, 'dan', id, [answer(step, 'dan')])).status).toBe(403);
  });
});

const aheadOf = async (who: CastName, visitId: string): Promise<Ahead['visits'][number]> => {
  const { body } = await api.send(who, 'GET', '/api/my-day/ahead');
  return (body as Ahead).visits.find(({ start: { visit } }) => visit.id === visitId)!;
};
const handedOut = async (who: CastName, visitId: string): Promise<Ahead['visits'][number]> => {
  await api.send(who, 'POST', `/api/visits/${visitId}/offer`, { body: {} });
  return aheadOf(who, visitId);
};
type Item = { id: string; kind: string; label: string };
const itemsOf = (ahead: Ahead['visits'][number]): Item[] => ahead.start.items.map((item, at) => ({ ...item, id: ahead.itemIds[at]! }));
const open = (who: CastName, ahead: Ahead['visits'][number], items: Item[], more: object = {}) =>
  api.send(who, 'POST', `/api/visits/${ahead.start.visit.id}/record`, {
    body: { id: ahead.recordId, items, systems: [], acknowledged: [], offerId: ahead.offerId, ...more },
  });

describe('a visit that is started without signal', () => {
  it('is handed out ahead to the pair alone, and anew when something has changed', async () => {
    const { visitId, jobId } = await siteJob(api, { startsAt: hours(10) });
    expect((await aheadOf('anna', visitId)).offerId).toBeNull();
    const ahead = await handedOut('anna', visitId);
    expect(ahead).toMatchObject({ offerId: expect.any(String), start: { gate: { open: true } } });
    expect((await aheadOf('ben', visitId)).offerId).toBeNull();
    expect(
      (await api.send('cora', 'GET', '/api/my-day/ahead')).body.visits.map((v: Ahead['visits'][number]) => v.start.visit.id),
    ).not.toContain(visitId);
    expect((await api.send('cora', 'POST', `/api/visits/${visitId}/offer`, { body: {} })).status).toBe(403);
    await api.database.transaction((tx) =>
      tx.db.job.update({ where: { id: jobId }, data: { facts: { ...ahead.basis.facts, stories: 2 } as object } }),
    );
    expect((await aheadOf('anna', visitId)).offerId).toBeNull();
    expect(await open('ben', ahead, [])).toMatchObject({ status: 422, body: { code: 'offer-unknown' } });
  });

  it('is taken in as it was opened: facts, revisions and time; a gate that closed meanwhile is flagged', async () => {
    const { visitId, jobId } = await siteJob(api, { startsAt: hours(14), facts: { stories: 1, yearBuilt: 1990 } });
    const ahead = await handedOut('anna', visitId);
    await api.database.transaction(async ({ db }) => {
      await db.job.update({ where: { id: jobId }, data: { facts: { stories: 3 } } });
      const [agreement] = await db.agreement.findMany({ where: { jobId } });
      await db.signer.create({
        data: {
          id: randomUUID(),
          agreementId: agreement!.id,
          partyId: (await db.jobParty.findFirstOrThrow({ where: { jobId, role: 'buyers_agent' } })).partyId,
          capacity: 'self',
          tokenHash: randomUUID(),
          tokenEndsAt: hours(1000),
        },
      });
    });
    expect((await aheadOf('anna', visitId)).start.gate.open).toBe(false);
    const sentAt = api.clock.now;
    const opened = await open('anna', ahead, itemsOf(ahead), {
      openedAt: new Date(sentAt.getTime() - 9 * HOUR).toISOString(),
      sentAt: new Date(sentAt.getTime() - 6 * HOUR).toISOString(),
    });
    expect(opened).toMatchObject({ status: 201, body: { id: ahead.recordId } });
    const [pack] = await api.database.read.rows(
      `SELECT k.id::text AS id, k.start_despite_gate AS despite, k.body->'facts'->>'stories' AS stories, r.opened_at AS opened FROM site_package k JOIN site_record r ON r.id = k.record_id WHERE r.id = $1::uuid`,
      [ahead.recordId],
    );
    expect(pack).toEqual({ id: ahead.packageId, despite: true, stories: '1', opened: new Date(sentAt.getTime() - 3 * HOUR) });
  });

  it('stays shut when the gate was shut already when it was handed out', async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(18), signed: false });
    const ahead = await handedOut('anna', visitId);
    expect(await open('anna', ahead, [])).toMatchObject({ status: 409, body: { code: 'gate-closed' } });
  });

  it('on two phones becomes one record with everything of both', async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(22) });
    const [anna, ben] = [await handedOut('anna', visitId), await handedOut('ben', visitId)];
    expect(ben).toMatchObject({ recordId: anna.recordId, packageId: anna.packageId, itemIds: anna.itemIds });
    const bath = (): Item => ({ id: randomUUID(), kind: 'ground_fault_device', label: 'upstairs bath' });
    const [hers, his] = [bath(), bath()];
    const garage: Item = { id: randomUUID(), kind: 'ground_fault_device', label: 'garage' };
    expect((await open('anna', anna, [...itemsOf(anna), hers])).status).toBe(201);
    expect(await open('ben', ben, [...itemsOf(ben), his, garage])).toMatchObject({ status: 201, body: { id: anna.recordId } });
    const record = await recordOf(api, 'anna', anna.recordId);
    const mine = [hers, his, garage].map(({ id }) => id);
    expect(record.items.flatMap(({ id }) => (mine.includes(id) ? id : []))).toEqual(expect.arrayContaining([hers.id, garage.id]));
    expect(record.items.some(({ id }) => id === his.id)).toBe(false);
    expect(record.aliases).toEqual([{ id: his.id, standsFor: hers.id }]);
    const places = record.steps.map((s) => `${s.stepKey} ${s.itemId}`);
    expect(new Set(places).size).toBe(places.length);
    const trip = stepOf(record, 'ground-fault-trip-reset', hers.id);
    const at = (item: Item): NewEntry => ({ ...answer(trip, 'ben'), packageId: ben.packageId, itemId: item.id });
    const [same, new_] = [at(his), at(garage)];
    expect(codes(await enter(api, 'ben', anna.recordId, [same, new_]), [same.id, new_.id])).toEqual([null, null]);
    const stored = (await recordOf(api, 'ben', anna.recordId)).entries.filter(({ observedBy }) => observedBy === CAST.ben.id);
    expect(stored.map(({ itemId }) => itemId).sort()).toEqual([hers.id, garage.id].sort());
  });

  it('takes a thing found on both phones as one thing', async () => {
    const { visitId } = await siteJob(api, { startsAt: hours(26) });
    const id = await start(api, visitId, 'anna');
    const add = (who: CastName, joins: boolean) =>
      api.send(who, 'POST', `/api/records/${id}/items`, {
        body: { id: randomUUID(), kind: 'ground_fault_device', label: 'kitchen', joins },
      });
    const first = await add('anna', true);
    expect(await add('ben', true)).toMatchObject({ status: 201, body: { id: first.body.id, steps: 0 } });
    expect(await add('ben', false)).toMatchObject({ status: 409, body: { code: 'item-name-taken' } });
  });
});
