// The driving estimate: values, order, and no shortcut by way of a third place.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { driveMinutes, estimatedTravel, greatCircleKm, travelAround } from '@backsight/scheduling/travel';
import { BIRCHMERE, PORT_ANSEL } from './cast.ts';

const places = fc.record({
  lat: fc.double({ min: 43.5, max: 44.5, noNaN: true }),
  lon: fc.double({ min: -89.5, max: -88.5, noNaN: true }),
});

describe('driveMinutes', () => {
  // By hand: 2 km x 1.45 x 60 / 22 = 7.91; 3 km x 1.42 x 60 / 30 = 8.52; 5 km x 1.38 x 60 / 38 = 10.89; each plus 3, up.
  it.each([
    [0, 0],
    [0.04, 0],
    [0.05, 4],
    [2, 11],
    [5, 20],
    [10, 31],
    [25, 54],
    [60, 92],
    [100, 128],
  ])('%d km is %d min', (km, minutes) => expect(driveMinutes(km)).toBe(minutes));

  it('never falls with distance', () => {
    for (let km = 0; km < 120; km += 0.05) expect(driveMinutes(km + 0.05)).toBeGreaterThanOrEqual(driveMinutes(km));
  });
});

describe('estimated travel', () => {
  it('is the same both ways and 0 at the same place', () => {
    expect(greatCircleKm(BIRCHMERE, PORT_ANSEL)).toBeCloseTo(8, 1);
    expect(estimatedTravel.minutes(BIRCHMERE, PORT_ANSEL)).toBe(estimatedTravel.minutes(PORT_ANSEL, BIRCHMERE));
    expect(estimatedTravel.minutes(BIRCHMERE, { ...BIRCHMERE })).toBe(0);
  });

  it('a stop on the way never saves more than the parking of one', () => {
    fc.assert(
      fc.property(places, places, places, (a, b, c) => {
        const minutes = estimatedTravel.minutes;
        expect(minutes(a, c)).toBeLessThanOrEqual(minutes(a, b) + minutes(b, c) + 4);
      }),
    );
  });

  it('is asked once for each other place', () => {
    let asked = 0;
    const around = travelAround(
      {
        sourceOf: () => 'manual',
        minutes: (from) => {
          asked += 1;
          return from === BIRCHMERE ? 7 : 9;
        },
      },
      BIRCHMERE,
      [PORT_ANSEL],
    );
    expect([around.to(0), around.to(0), around.from(0), around.from(0)]).toEqual([9, 9, 7, 7]);
    expect(asked).toBe(2);
  });
});
