// Two phones, two clocks, no connection: whatever arrives in whatever order, the record comes out the same and holds everything.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOffset, orderOf, type WrittenRow } from '@backsight/domain/sitework/order';
import { standingEntries } from '@backsight/domain/sitework/standing';
import { placeOf, type KnownEntry } from '@backsight/domain/sitework/value';

const START = Date.UTC(2026, 4, 12, 14);
const PHONES = ['phone a', 'phone b'];
const HOUR = 3_600_000;

type Act = { phone: number; step: string; observedBy: string; minutesLater: number; correctsOwn: boolean };
type Sent = KnownEntry & { row: Omit<WrittenRow, 'recordedAt' | 'clockOffsetMs'>; trueAt: number; phone: number };

/** What each phone wrote, by its own wrong clock; a correction points at what the same phone knew last of that person and place. */
function write(acts: readonly Act[], skews: readonly number[]): Sent[] {
  const seq = [0, 0];
  let now = START;
  const all: Sent[] = [];
  for (const [n, act] of acts.entries()) {
    now += act.minutesLater * 60_000;
    const last = all.findLast((e) => e.phone === act.phone && e.stepKey === act.step && e.observedBy === act.observedBy);
    const id = `entry ${String(n).padStart(3, '0')}`;
    const deviceSeq = (seq[act.phone]! += 1);
    all.push({
      id,
      stepKey: act.step,
      itemId: null,
      outcome: 'done',
      evidence: { kind: 'confirm' },
      observedBy: act.observedBy,
      supersedesId: act.correctsOwn && last ? last.id : null,
      order: '',
      phone: act.phone,
      trueAt: now,
      row: { id, deviceId: PHONES[act.phone]!, deviceSeq, writtenAt: new Date(now + skews[act.phone]!) },
    });
  }
  return all;
}

type Batch = { phone: number; upTo: number; hours: number };

/** The service: each phone sends from its beginning or goes on, in batches of any size, again and again, until all is there. */
function receive(all: readonly Sent[], batches: readonly Batch[], skews: readonly number[]): Map<string, WrittenRow> {
  const stored = new Map<string, WrittenRow>();
  let now = START + 1000 * HOUR;
  const take = (phone: number, upTo: number, hours: number): void => {
    now += hours * HOUR;
    const offset = clockOffset(new Date(now + skews[phone]!), new Date(now));
    for (const { row } of all.filter((e) => e.phone === phone).slice(0, upTo))
      if (!stored.has(row.id)) stored.set(row.id, { ...row, clockOffsetMs: offset, recordedAt: new Date(now) });
  };
  for (const { phone, upTo, hours } of batches) take(phone, upTo, hours);
  for (const phone of [0, 1]) take(phone, all.length, 1);
  return stored;
}

const standing = (all: readonly Sent[], stored: Map<string, WrittenRow>): string[] => {
  const order = orderOf([...stored.values()]);
  return standingEntries(all.map((e) => ({ ...e, order: order.get(e.id)! }))).map(({ id }) => id);
};

const act = fc.record({
  phone: fc.integer({ min: 0, max: 1 }),
  step: fc.constantFrom('roof', 'panel', 'attic'),
  observedBy: fc.constantFrom('ann', 'ben'),
  minutesLater: fc.integer({ min: 1, max: 50 }),
  correctsOwn: fc.boolean(),
});
const batch = fc.record({
  phone: fc.integer({ min: 0, max: 1 }),
  upTo: fc.integer({ min: 0, max: 12 }),
  hours: fc.integer({ min: 0, max: 30 }),
});
/** Clocks wrong by up to two days either way. */
const skews = fc.tuple(fc.integer({ min: -48, max: 48 }), fc.integer({ min: -48, max: 48 })).map((hours) => hours.map((h) => h * HOUR + 7));
const batches = fc.array(batch, { maxLength: 8 });

describe('entries of two phones', () => {
  it('come out the same in whatever order, pieces and number of times they arrive', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 20 }), skews, batches, batches, (acts, wrong, one, other) => {
        const all = write(acts, wrong);
        const [here, there] = [receive(all, one, wrong), receive(all, other, wrong)];
        expect([...here.keys()].sort()).toEqual(all.map(({ id }) => id).sort());
        expect(standing(all, here)).toEqual(standing(all, there));
      }),
    );
  });
  it('count by when they were really written: the newest of a person at a place that nothing corrects', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 20 }), skews, batches, (acts, wrong, sent) => {
        const all = write(acts, wrong);
        const corrected = new Set(all.map(({ supersedesId }) => supersedesId));
        const newest = new Map<string, Sent>();
        for (const e of all) if (!corrected.has(e.id)) newest.set(`${e.observedBy} ${placeOf(e)}`, e);
        const wanted = [...newest.values()].sort((a, b) => a.trueAt - b.trueAt).map(({ id }) => id);
        expect(standing(all, receive(all, sent, wrong))).toEqual(wanted);
      }),
    );
  });
});

describe('the order of one phone', () => {
  const row = (deviceSeq: number, minute: number, more: Partial<WrittenRow> = {}): WrittenRow => ({
    id: `e${deviceSeq}`,
    deviceId: 'phone a',
    deviceSeq,
    writtenAt: new Date(START + minute * 60_000),
    clockOffsetMs: 0,
    recordedAt: new Date(START + HOUR),
    ...more,
  });
  const ids = (rows: WrittenRow[]): string[] => {
    const order = orderOf(rows);
    return rows.map(({ id }) => id).sort((a, b) => (order.get(a)! < order.get(b)! ? -1 : 1));
  };
  it('is its counter, though its clock was set back in between', () => {
    expect(ids([row(1, 30), row(2, -300), row(3, -290)])).toEqual(['e1', 'e2', 'e3']);
  });
  it('never lies after the time of arrival, though its clock ran ahead', () => {
    const other = row(9, 0, {
      id: 'other',
      deviceId: 'phone b',
      writtenAt: new Date(START + 2 * HOUR),
      recordedAt: new Date(START + 2 * HOUR),
    });
    expect(ids([row(1, 60 * 24), other])).toEqual(['e1', 'other']);
  });
  it('is the time of arrival for what has no clock', () => {
    expect(ids([row(2, 0, { deviceId: null, writtenAt: null }), row(1, 59)])).toEqual(['e1', 'e2']);
  });
});
