// Free gaps of a person-day: between commitments, around the base, when commitments overlap, and in split days.
import { describe, expect, it } from 'vitest';
import { freeGaps } from '@backsight/scheduling/gaps';
import type { Commitment } from '@backsight/scheduling/gaps';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { BIRCHMERE, PORT_ANSEL, TUE } from './cast.ts';

const DRIVE = estimatedTravel.minutes(BIRCHMERE, PORT_ANSEL);
const day = { day: TUE, start: 480, end: 1020 };
const at = (start: number, end: number, place = BIRCHMERE): Commitment => ({ start, end, place });
const gaps = (commitments: Commitment[], shifts = [day], overtime = 0) =>
  freeGaps(shifts, BIRCHMERE, commitments, overtime, estimatedTravel).map(({ from, until, prev, next }) => [
    from,
    until,
    prev === PORT_ANSEL ? 'port' : 'base',
    next === PORT_ANSEL ? 'port' : 'base',
  ]);

describe('free gaps', () => {
  it.each([
    { why: 'an empty day is one gap', given: [], expected: [[480, 1020, 'base', 'base']] },
    {
      why: 'a visit splits it',
      given: [at(600, 700, PORT_ANSEL)],
      expected: [
        [480, 600, 'base', 'port'],
        [700, 1020, 'port', 'base'],
      ],
    },
    { why: 'a visit over the whole day leaves none', given: [at(400, 1100)], expected: [] },
    {
      why: 'of overlapping commitments the one that ends last is left',
      given: [at(600, 800, PORT_ANSEL), at(650, 700)],
      expected: [
        [480, 600, 'base', 'port'],
        [800, 1020, 'port', 'base'],
      ],
    },
    {
      why: 'commitments that touch leave nothing between',
      given: [at(700, 800), at(600, 700)],
      expected: [
        [480, 600, 'base', 'base'],
        [800, 1020, 'base', 'base'],
      ],
    },
    {
      why: 'a visit that ran into the shift is where it begins',
      given: [at(400, 500, PORT_ANSEL)],
      expected: [[500, 1020, 'port', 'base']],
    },
    {
      why: 'a visit before the shift is driven home from',
      given: [at(400, 470, PORT_ANSEL)],
      expected: [[470 + DRIVE, 1020, 'base', 'base']],
    },
    {
      why: 'a visit after the shift is driven to from home',
      given: [at(1030, 1100, PORT_ANSEL)],
      expected: [[480, 1030 - DRIVE, 'base', 'base']],
    },
  ])('$why', ({ given, expected }) => expect(gaps(given)).toEqual(expected));

  it('no shift, no gap', () => expect(gaps([], [])).toEqual([]));

  it('two shifts are two days at the base', () => {
    expect(
      gaps(
        [at(500, 600, PORT_ANSEL)],
        [
          { ...day, end: 720 },
          { ...day, start: 780 },
        ],
      ),
    ).toEqual([
      [480, 500, 'base', 'port'],
      [600, 720, 'port', 'base'],
      [780, 1020, 'base', 'base'],
    ]);
  });

  it('the drive home may use the overtime allowed', () => expect(gaps([], [day], 30)).toEqual([[480, 1050, 'base', 'base']]));

  it('knows the drive and the overtime that happen anyway', () => {
    const [, last] = freeGaps([day], BIRCHMERE, [at(600, 1010, PORT_ANSEL)], 30, estimatedTravel);
    expect(last).toMatchObject({ direct: DRIVE, overtimeAnyway: 1010 + DRIVE - 1020, toBase: true, fromBase: false, closes: 1020 });
  });
});
