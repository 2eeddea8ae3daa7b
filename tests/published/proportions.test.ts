// Intervals of shares against published and independently computed values, to 1e-7.
import { describe, expect, it } from 'vitest';
import { clopperPearsonInterval, shareDifference, wilsonInterval } from '@backsight/statistics/proportions';
import { differences, shares } from './data/proportions.ts';

describe('interval of a share, 95 %', () => {
  it.each(shares)('$name: Wilson, Clopper-Pearson ($source; $status)', ({ share, wilson, clopperPearson }) => {
    const score = wilsonInterval(share);
    const exact = clopperPearsonInterval(share);
    expect(Math.abs(score.lower - wilson[0])).toBeLessThan(1e-7);
    expect(Math.abs(score.upper - wilson[1])).toBeLessThan(1e-7);
    expect(Math.abs(exact.lower - clopperPearson[0])).toBeLessThan(1e-7);
    expect(Math.abs(exact.upper - clopperPearson[1])).toBeLessThan(1e-7);
  });

  it('mirrors when failures become successes', () => {
    const few = clopperPearsonInterval({ count: 3, total: 40 });
    const many = clopperPearsonInterval({ count: 37, total: 40 });
    expect(many.lower).toBeCloseTo(1 - few.upper, 7);
  });

  it('never leaves 0 to 1, whatever the rounding', () => {
    for (let total = 1; total <= 200; total++) {
      expect(wilsonInterval({ count: total, total }).upper).toBe(1);
      expect(wilsonInterval({ count: 0, total }).lower).toBe(0);
    }
  });

  it.each([
    { share: { count: -1, total: 40 }, why: 'negative' },
    { share: { count: 41, total: 40 }, why: 'more than there are' },
    { share: { count: 1.5, total: 40 }, why: 'not whole' },
    { share: { count: 0, total: 0 }, why: 'share of nothing' },
  ])('refuses a count that is $why', ({ share }) => {
    expect(() => wilsonInterval(share)).toThrow(RangeError);
    expect(() => clopperPearsonInterval(share)).toThrow(RangeError);
  });
});

describe('difference of two shares, 95 %', () => {
  it.each(differences)('$name ($source; $status)', ({ first, other, difference, lower, upper }) => {
    const found = shareDifference(first, other);
    expect(found.difference).toBeCloseTo(difference, 12);
    expect(Math.abs(found.lower - lower)).toBeLessThan(1e-7);
    expect(Math.abs(found.upper - upper)).toBeLessThan(1e-7);
  });
});
