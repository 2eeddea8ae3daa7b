// Rounding and sharing of cents against published tables.
import { describe, expect, it } from 'vitest';
import { allocate, percentOf, priceOf } from '@backsight/domain/shared/money';
import { drives, roundingInputs, roundings, shares, ties } from './data/money.ts';

describe('rounding', () => {
  it.each(roundings)('$rounding (java.math.RoundingMode, summary table, Oracle; found)', ({ rounding, results }) => {
    expect(roundingInputs.map((amount) => priceOf(amount, 1, rounding))).toEqual(results);
    expect(roundingInputs.map((amount) => percentOf(100, amount, rounding))).toEqual(results);
  });

  it.each(ties)('$name dollars ($source; $status)', ({ dollars, halfUp, halfEven }) => {
    expect(priceOf(dollars, 100, 'halfUp')).toBe(halfUp);
    expect(priceOf(dollars, 100, 'halfEven')).toBe(halfEven);
  });

  it.each(drives)('$name ($source; $status)', ({ miles, centsEach, halfUp, halfEven }) => {
    expect(priceOf(miles, centsEach, 'halfUp')).toBe(halfUp);
    expect(priceOf(miles, centsEach, 'halfEven')).toBe(halfEven);
  });
});

describe('sharing', () => {
  it.each(shares)('$name ($source; $status)', ({ cents, weights, shares: expected }) => {
    expect(allocate(cents, weights)).toEqual(expected);
    expect(expected.reduce((sum, share) => sum + share, 0)).toBe(cents);
  });
});
