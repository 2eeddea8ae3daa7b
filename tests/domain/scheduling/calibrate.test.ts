// Fitting the estimate to recorded drives: it finds speeds that were there, and leaves alone what is not known enough.
import { describe, expect, it } from 'vitest';
import { ENOUGH_BETWEEN_TOWNS, ENOUGH_IN_BAND, fitTravel, median, type Drive } from '@backsight/scheduling/calibrate';
import { greatCircleKm, PARKING_MINUTES, roadMinutes, STANDARD_SPEEDS } from '@backsight/scheduling/travel';
import { BIRCHMERE, PORT_ANSEL } from './cast.ts';

const KM = 1 / 111.195;
const TOWNS = [
  { name: 'Birchmere', ...BIRCHMERE },
  { name: 'Port Ansel', ...PORT_ANSEL },
];

/** A generator of even numbers in [0, 1) (Park, Miller, Communications of the ACM 31, 1988): the same drives every time. */
function chance(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

/** Drives north from a place, of `fromKm` to `toKm`, as long as the speeds say, give or take a fifth. */
function drives(count: number, fromKm: number, toKm: number, speeds: readonly number[], next = chance(7)): Drive[] {
  return Array.from({ length: count }, () => {
    const km = fromKm + (toKm - fromKm) * next();
    const minutes = PARKING_MINUTES + roadMinutes(km, speeds) * (0.8 + 0.4 * next());
    return { from: BIRCHMERE, to: { lat: BIRCHMERE.lat + km * KM, lon: BIRCHMERE.lon }, minutes };
  });
}

describe('fitTravel', () => {
  it('finds the speeds under which the drives were made', () => {
    const real = [16, 24, 32, 44, 60, 80];
    const next = chance(11);
    const made = [
      [0.5, 2],
      [2, 5],
      [5, 10],
      [10, 25],
      [25, 60],
    ].flatMap(([from, to]) => drives(60, from!, to!, real, next));
    const fit = fitTravel(made, []);
    for (const km of [1.5, 4, 8, 18, 45]) expect(roadMinutes(km, fit.speeds) / roadMinutes(km, real)).toBeGreaterThan(0.93);
    for (const km of [1.5, 4, 8, 18, 45]) expect(roadMinutes(km, fit.speeds) / roadMinutes(km, real)).toBeLessThan(1.07);
    expect(fit.missAfter!).toBeLessThan(fit.missBefore!);
    expect(fit.bands.map(({ fitted }) => fitted)).toEqual([true, true, true, true, true, false]);
  });

  it(`leaves a band alone below ${ENOUGH_IN_BAND} drives and says how many there are`, () => {
    const slow = STANDARD_SPEEDS.map((kmh) => kmh / 2);
    const few = fitTravel(drives(ENOUGH_IN_BAND - 1, 6, 9, slow), []);
    expect(few.speeds).toEqual(STANDARD_SPEEDS);
    expect(few.bands[2]).toMatchObject({ drives: 19, fitted: false, kmh: 38, standardKmh: 38 });
    expect(few.bands[2]!.ratio).toBeGreaterThan(1.7);
    expect(fitTravel(drives(ENOUGH_IN_BAND, 6, 9, slow), []).bands[2]!.fitted).toBe(true);
  });

  it('never gets faster with distance, also when short drives were slow and long ones fast', () => {
    const fit = fitTravel(
      [
        ...drives(
          30,
          1,
          2,
          STANDARD_SPEEDS.map((k) => k / 3),
        ),
        ...drives(
          30,
          2.1,
          5,
          STANDARD_SPEEDS.map((k) => k * 3),
        ),
      ],
      [],
    );
    for (let km = 0.1; km < 40; km += 0.1) expect(roadMinutes(km + 0.1, fit.speeds)).toBeGreaterThan(roadMinutes(km, fit.speeds));
  });

  it(`gives two towns a factor of their own from ${ENOUGH_BETWEEN_TOWNS} drives on, when it is not near 1`, () => {
    const km = greatCircleKm(BIRCHMERE, PORT_ANSEL);
    const between = (count: number, factor: number): Drive[] =>
      Array.from({ length: count }, (_, at) => ({
        from: at % 2 ? BIRCHMERE : PORT_ANSEL,
        to: at % 2 ? PORT_ANSEL : BIRCHMERE,
        minutes: PARKING_MINUTES + factor * roadMinutes(km),
      }));
    expect(fitTravel(between(8, 1.6), TOWNS).factors).toEqual([{ a: 'Birchmere', b: 'Port Ansel', factor: 1.6, drives: 8 }]);
    expect(fitTravel(between(7, 1.6), TOWNS).factors).toEqual([]);
    expect(fitTravel(between(8, 1.05), TOWNS).factors).toEqual([]);
  });

  it.each<[string, Drive]>([
    ['no way between', { from: BIRCHMERE, to: BIRCHMERE, minutes: 12 }],
    ['no time at all', { from: BIRCHMERE, to: PORT_ANSEL, minutes: 0 }],
    ['a mark set before the drive', { from: BIRCHMERE, to: PORT_ANSEL, minutes: -5 }],
    ['a stop on the way', { from: BIRCHMERE, to: PORT_ANSEL, minutes: 180 }],
    ['not a number', { from: BIRCHMERE, to: PORT_ANSEL, minutes: NaN }],
  ])('leaves out what cannot be a drive: %s', (_, drive) => {
    expect(fitTravel([drive], TOWNS)).toMatchObject({ used: 0, leftOut: 1, missBefore: null, missAfter: null, speeds: STANDARD_SPEEDS });
  });

  it('of no drives is the standard', () => expect(fitTravel([], TOWNS)).toMatchObject({ used: 0, leftOut: 0, factors: [] }));
});

describe('median', () => {
  it.each([
    [[], null],
    [[3], 3],
    [[4, 1], 2.5],
    [[9, 1, 2], 2],
  ])('of %j is %j', (values, middle) => expect(median(values)).toBe(middle));
});
