// Longest trip time of a ground-fault interrupter at several fault currents.
import { describe, expect, it } from 'vitest';
import { maxTripSeconds } from '@backsight/domain/sitework/groundFault';

describe('UL 943, T = (20 / I)^1.43, as quoted in the trade (formula found second hand, values computed)', () => {
  it.each([
    { milliamperes: 6, seconds: 5.59, digits: 2 },
    { milliamperes: 10, seconds: 2.69, digits: 2 },
    { milliamperes: 20, seconds: 1, digits: 2 },
    { milliamperes: 50, seconds: 0.27, digits: 2 },
    { milliamperes: 100, seconds: 0.1, digits: 2 },
    { milliamperes: 264, seconds: 0.025, digits: 3 },
  ])('$milliamperes mA: $seconds s', ({ milliamperes, seconds, digits }) => {
    expect(maxTripSeconds(milliamperes)?.toFixed(digits)).toBe(seconds.toFixed(digits));
  });

  it.each([5.9, 0, -6, 264.1, Number.NaN])('says nothing at %d mA', (milliamperes) => {
    expect(maxTripSeconds(milliamperes)).toBeNull();
  });
});
