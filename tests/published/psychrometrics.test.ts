// Dew point and wood at rest against published values, and the bands and limits built on them.
import { describe, expect, it } from 'vitest';
import { scanLacks, woodBand } from '@backsight/domain/sitework/moisture';
import { dewPointF, woodAtRest } from '@backsight/domain/sitework/psychrometrics';
import { dewPoints, woodAtRestCases } from './data/psychrometrics.ts';

describe('dew point', () => {
  it.each(dewPoints)('$name ($source; $status)', ({ airF, rh, dewF, toF }) => {
    expect(Math.abs(dewPointF(airF, rh) - dewF)).toBeLessThanOrEqual(toF);
  });
  it('is the air itself when it is full, and refuses what is no humidity', () => {
    expect(dewPointF(70, 100)).toBeCloseTo(70, 9);
    for (const rh of [0, -1, 101, Number.NaN]) expect(() => dewPointF(70, rh)).toThrow(RangeError);
  });
});

describe('wood at rest', () => {
  it.each(woodAtRestCases)('$name ($source; $status)', ({ airF, rh, percent, to }) => {
    for (const [at, one] of rh.entries()) expect(Math.abs(woodAtRest(airF, one) - percent[at]!), `${one} %`).toBeLessThanOrEqual(to);
  });
  it('is dry in dry air', () => expect(woodAtRest(70, 0)).toBe(0));
});

describe('what a reading says', () => {
  it.each([
    [15.9, 'normal'],
    [16, 'watch'],
    [19.9, 'watch'],
    [20, 'wet'],
    [28, 'wet'],
    [28.1, 'decay'],
  ])('%d in wood: %s (common practice)', (percent, band) => expect(woodBand(percent).band).toBe(band));
  it.each([
    [70, 52, 3, 0],
    [70, 52.1, 3, 1],
    [70, 52, 2.9, 1],
    [70, 60, 1, 2],
    [20, 70, 4, 0],
  ])(
    'a scan at %d F inside, %d F outside for %d hours lacks %d (18 F for 3 hours, ASHRAE 101-1981 as quoted)',
    (insideF, outsideF, hours, lacks) => expect(scanLacks({ insideF, outsideF, hours })).toHaveLength(lacks),
  );
});
