// Discounts by hand and fees priced anew. Amounts in whole cents; half cents are rounded up (common practice).
import { describe, expect, it } from 'vitest';
import {
  DISCOUNT_KEY,
  discountBase,
  discounted,
  mayDiscount,
  pricedAnew,
  withDiscount,
  type Discount,
} from '@backsight/domain/fees/discount';
import { discountLimitFor } from '@backsight/domain/fees/limits';
import type { FeeLine, FeeSchedule } from '@backsight/domain/fees/schedule';
import { mayStillDiscount } from '@backsight/domain/jobs/decide';
import type { JobState } from '@backsight/domain/jobs/words';

const line = (rule: string, cents: number): FeeLine => ({ rule, label: rule, reason: 'x', cents });
const schedule = { rules: [{ key: 'base' }, { key: 'older' }] } as unknown as FeeSchedule;
const quote = (cents: number) => ({ lines: [line('base', cents)], totalCents: cents, assumptions: [], asks: [] });

describe('a discount by hand', () => {
  it.each<[string, Discount, number, number, string]>([
    ['an amount', { cents: 5_000, reason: 'Second house' }, 46_500, 41_500, 'Second house'],
    ['a percentage', { percent: 10, reason: 'Second house' }, 46_500, 41_850, 'Second house, 10% of $465.00'],
    ['half a cent, up', { percent: 2.5, reason: 'r' }, 46_510, 45_347, 'r, 2.5% of $465.10'],
    ['more than all of it', { cents: 50_000, reason: 'r' }, 46_500, 0, 'r'],
  ])('of %s is the last line of a quote and names its reason', (_, discount, fee, total, reason) => {
    const after = withDiscount(quote(fee), discount);
    expect(after.totalCents).toBe(total);
    expect(after.lines.at(-1)).toEqual({ rule: DISCOUNT_KEY, label: 'Discount', reason, cents: total - fee });
  });
  it('of nothing is no line', () => {
    expect(withDiscount(quote(46_500), null).lines).toHaveLength(1);
    expect(withDiscount(quote(0), { percent: 10, reason: 'r' }).lines).toHaveLength(1);
  });
  it.each<[Discount, number | 'none', string | null]>([
    [{ cents: 5_000, reason: 'r' }, 'none', null],
    [{ cents: 5_000, reason: 'r' }, 5_000, null],
    [{ cents: 5_001, reason: 'r' }, 5_000, 'discount-limit'],
    [{ percent: 50, reason: 'r' }, 5_000, 'discount-limit'],
    [{ percent: 100, reason: 'r' }, 'none', null],
    [{ cents: 46_501, reason: 'r' }, 'none', 'discount-above-fee'],
  ])('%o with a limit of %s answers %s', (discount, limitCents, code) =>
    expect(mayDiscount(discount, { feeCents: 46_500, limitCents })).toMatchObject(code ? { ok: false, code } : { ok: true }),
  );
  it.each<[JobState, boolean]>([
    ['held', true],
    ['booked', true],
    ['lapsed', true],
    ['on_site', false],
    ['visited', false],
    ['cancelled', false],
  ])('is given on a job that is %s: %s', (state, may) => expect(mayStillDiscount(state).ok).toBe(may));
});

describe('the limit of a discount', () => {
  const limits = [
    { role: 'owner', discountCents: null },
    { role: 'office_manager', discountCents: 5_000 },
    { role: 'lead_inspector', discountCents: 2_000 },
  ];
  it.each([
    [['owner'], 'none'],
    [['office_manager'], 5_000],
    [['lead_inspector', 'inspector'], 2_000],
    [['lead_inspector', 'office_manager'], 5_000],
    [['owner', 'office_manager'], 'none'],
  ] as const)('of %o is %s', (roles, limit) => expect(discountLimitFor(roles, limits)).toBe(limit));
  it('is none where the firm set none', () => expect(discountLimitFor(['office_manager'], [])).toBe('none'));
});

describe('the lines of a job', () => {
  const before = [line('base', 40_000), line('older', 5_000), line(DISCOUNT_KEY, -4_500), line('moved-1-1', 4_000)];
  it('with another discount keep what the schedule and the desk made; percent are of the schedule alone', () => {
    expect(discountBase(schedule, before)).toBe(45_000);
    expect(discounted(schedule, before, { percent: 20, reason: 'r' }).map(({ rule, cents }) => [rule, cents])).toEqual([
      ['base', 40_000],
      ['older', 5_000],
      [DISCOUNT_KEY, -9_000],
      ['moved-1-1', 4_000],
    ]);
    expect(discounted(schedule, before, null).map(({ rule }) => rule)).toEqual(['base', 'older', 'moved-1-1']);
  });
  it('priced anew keep what the desk added', () =>
    expect(pricedAnew(schedule, before, [line('base', 50_000)]).map(({ rule, cents }) => [rule, cents])).toEqual([
      ['base', 50_000],
      ['moved-1-1', 4_000],
    ]));
  it('stay where no rule of the schedule made them, and a percentage is then of all', () => {
    const agreed = [line('reinspection', 12_000)];
    expect(pricedAnew(schedule, agreed, [line('base', 50_000)])).toEqual(agreed);
    expect(discountBase(schedule, agreed)).toBe(12_000);
  });
});
