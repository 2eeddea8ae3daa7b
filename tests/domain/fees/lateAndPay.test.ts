// Tag: time.
// Late moves and cancellings, pay, outside hours: does it, refuses it, stays quiet.
// Sources: free beyond 24-48 hours, half or a flat amount inside, all of it at the door are common practice; Wis. Stat. 103.455 from memory.
import { describe, expect, it } from 'vitest';
import { mayBegin, payFor, ruleOn, type PayRule } from '@backsight/domain/fees/pay';
import { payRuleSchema } from '@backsight/domain/fees/stored';
import { outsideHoursCharge } from '@backsight/domain/fees/outsideHours';
import { lateCharge } from '@backsight/domain/jobs/lateFees';

const STARTS = new Date('2026-05-14T15:00:00Z');
const before = (hours: number): Date => new Date(STARTS.getTime() - hours * 3_600_000);
const LATE = { hours: 48, movePercent: 0, cancelPercent: 50, fullHours: 4, moveCents: 7_500, cancelCents: 0 };

describe('a late charge', () => {
  it.each([
    ['cancel', 48, null],
    ['cancel', 47.99, 22_501],
    ['cancel', 4, 22_501],
    ['cancel', 3.99, 45_001],
    ['cancel', -1, 45_001],
    ['move', 30, 7_500],
    ['move', 2, 45_001],
    ['move', 60, null],
  ] as const)('for a %s %d hours before is %s cents', (what, hours, cents) => {
    expect(lateCharge(LATE, what, { feeCents: 45_001, startsAt: STARTS, now: before(hours) })?.cents ?? null).toBe(cents);
  });
  it('names its rule, and never exceeds the fee', () => {
    expect(lateCharge(LATE, 'cancel', { feeCents: 45_000, startsAt: STARTS, now: before(10) })?.because).toBe(
      'less than 48 hours before; 50% of $450.00',
    );
    expect(lateCharge(LATE, 'move', { feeCents: 5_000, startsAt: STARTS, now: before(10) })?.cents).toBe(5_000);
  });
  it.each([
    ['no fee', LATE, 0],
    ['no rule', { hours: 0, movePercent: 0, cancelPercent: 0 }, 45_000],
  ] as const)('is none with %s', (_what, late, feeCents) => {
    expect(lateCharge(late, 'cancel', { feeCents, startsAt: STARTS, now: before(1) })).toBeNull();
  });
});

const SHARE: PayRule = { basis: { kind: 'share', firstPercent: 24.5, secondPercent: 18 }, writer: { kind: 'amount', cents: 3_500 } };
const HOURS: PayRule = { basis: { kind: 'hours', firstCents: 2_401, secondCents: 2_000 }, writer: { kind: 'percent', percent: 10 } };

describe('pay', () => {
  it.each([
    ['first by share', SHARE, { part: 'first', feeCents: 46_501, minutes: 180 }, 11_393],
    ['second by share', SHARE, { part: 'second', feeCents: 46_500, minutes: 180 }, 8_370],
    ['writer by amount', SHARE, { part: 'writer', feeCents: 46_500, minutes: 180 }, 3_500],
    ['first by hours', HOURS, { part: 'first', feeCents: 0, minutes: 190 }, 7_603],
    ['writer by percent', HOURS, { part: 'writer', feeCents: 46_500, minutes: 180 }, 4_650],
    ['a fee below zero', SHARE, { part: 'first', feeCents: -500, minutes: 180 }, 0],
  ] as const)('of the %s', (_what, rule, facts, cents) => {
    expect(payFor(rule, facts).cents).toBe(cents);
  });
  it('goes by the rule that had begun on the day', () => {
    const rules = [
      { personId: 'a', fromDay: '2026-01-01', n: 1 },
      { personId: 'a', fromDay: '2026-06-01', n: 2 },
      { personId: 'b', fromDay: '2026-02-01', n: 3 },
    ];
    expect([ruleOn(rules, 'a', '2026-05-31')?.n, ruleOn(rules, 'a', '2026-06-01')?.n, ruleOn(rules, 'a', '2025-12-31')]).toEqual([
      1,
      2,
      undefined,
    ]);
  });
  it('of a day that was worked out is not changed', () => {
    expect(mayBegin('2026-05-14', '2026-05-14')).toMatchObject({ ok: false, code: 'pay-frozen' });
    expect(mayBegin('2026-05-15', '2026-05-14').ok).toBe(true);
  });
  it.each([{ callbackCents: 100 }, { basis: { ...SHARE.basis, perCallback: 1 } }, { basis: { ...SHARE.basis, firstPercent: -1 } }])(
    'takes no rule with %j',
    (more) => {
      expect(payRuleSchema.safeParse({ ...SHARE, ...more }).success).toBe(false);
      expect(payRuleSchema.safeParse(SHARE).success).toBe(true);
    },
  );
});

const RULE = {
  key: 'o',
  label: 'Outside hours',
  applies: { always: true },
  kind: 'outsideHours',
  before: 480,
  after: 1020,
  days: ['sunday', 'holiday'],
  cents: 5_000,
} as const;
describe('outside hours', () => {
  it.each([
    ['2026-05-14', 479, 'starts at 7:59 AM, before 8:00 AM'],
    ['2026-05-14', 480, undefined],
    ['2026-05-14', 1020, undefined],
    ['2026-05-14', 1021, 'starts at 5:01 PM, after 5:00 PM'],
    ['2026-05-16', 600, undefined],
    ['2026-05-17', 600, 'on a Sunday'],
    ['2026-07-03', 600, 'on Independence Day (observed)'],
    ['2026-05-17', null, 'on a Sunday'],
  ] as const)('on %s at minute %s: %s', (day, startMinute, reason) => {
    expect(
      outsideHoursCharge(RULE, 'yes', { facts: {}, services: [], day, serviceNames: {}, travelMinutes: null, startMinute }).line?.reason,
    ).toBe(reason);
  });
  it('says what it may add while no start is chosen', () => {
    expect(
      outsideHoursCharge(RULE, 'yes', { facts: {}, services: [], day: '2026-05-14', serviceNames: {}, travelMinutes: null }).note,
    ).toBe('Outside hours may add $50 for a start before 8:00 AM or after 5:00 PM.');
  });
});
