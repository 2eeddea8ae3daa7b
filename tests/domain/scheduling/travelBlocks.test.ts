// Questions to a road service: every needed pair is in a block, no block is larger than allowed.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blocksOf, halves, neededPairs } from '@backsight/scheduling/travelBlocks';
import { placeKey } from '@backsight/scheduling/travelModel';
import { BIRCHMERE, PORT_ANSEL } from './cast.ts';

const HOUSE = { lat: 44.1, lon: -88.7 };
const [base, one, two] = [BIRCHMERE, PORT_ANSEL, HOUSE].map(placeKey) as [number, number, number];

describe('neededPairs', () => {
  it('joins bases with properties, and properties of one day', () => {
    const said = (...days: string[]) =>
      neededPairs(
        [BIRCHMERE],
        [
          { ...PORT_ANSEL, day: days[0]! },
          { ...HOUSE, day: days[1]! },
        ],
      )
        .map(String)
        .sort();
    const withBase = [
      [base, one],
      [one, base],
      [base, two],
      [two, base],
    ].map(String);
    expect(said('2026-05-12', '2026-05-12')).toEqual(
      [
        ...withBase,
        ...[
          [one, two],
          [two, one],
        ].map(String),
      ].sort(),
    );
    expect(said('2026-05-12', '2026-05-13')).toEqual(withBase.sort());
  });
  it('is nothing from a place to itself, and nothing without visits', () => {
    expect(neededPairs([BIRCHMERE], [{ ...BIRCHMERE, day: '2026-05-12' }])).toEqual([]);
    expect(neededPairs([BIRCHMERE, HOUSE], [])).toEqual([]);
  });
});

describe('blocksOf', () => {
  it('covers every pair within the size', () => {
    const pairs = fc.array(fc.tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 })), { maxLength: 200 });
    fc.assert(
      fc.property(pairs, fc.integer({ min: 1, max: 12 }), (list, side) => {
        const blocks = blocksOf(list, side);
        for (const { from, to } of blocks) expect(Math.max(from.length, to.length)).toBeLessThanOrEqual(side);
        for (const [a, b] of list) expect(blocks.some(({ from, to }) => from.includes(a) && to.includes(b))).toBe(true);
      }),
    );
  });
  it('asks a full table once', () => {
    const table = [1, 2, 3].flatMap((a) => [7, 8].map((b): [number, number] => [a, b]));
    expect(blocksOf(table, 25)).toEqual([{ from: [1, 2, 3], to: [7, 8] }]);
  });
});

describe('halves', () => {
  it.each([
    [
      { from: [1, 2, 3], to: [4] },
      [
        { from: [1], to: [4] },
        { from: [2, 3], to: [4] },
      ],
    ],
    [
      { from: [1], to: [4, 5] },
      [
        { from: [1], to: [4] },
        { from: [1], to: [5] },
      ],
    ],
    [{ from: [1], to: [4] }, []],
  ])('of %j are %j', (block, parts) => expect(halves(block)).toEqual(parts));
});
