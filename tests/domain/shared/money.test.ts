// Money: exact percentages, shares that keep the sum, dollars as written. The published tables are checked in tests/published.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocate, formatUsd, parseUsd, percentOf, priceOf, shortUsd } from '@backsight/domain/shared/money';

describe('percentOf', () => {
  it.each([
    [125050, 7.5, 'halfUp', 9379],
    [100, 0.5, 'halfUp', 1],
    [100, 0.5, 'halfEven', 0],
    [-100, 0.5, 'halfUp', -1],
    [99, 100, 'halfUp', 99],
    [0, 12, 'up', 0],
    [1, 33.33, 'up', 1],
  ] as const)('%d cents, %d percent, %s', (cents, percent, mode, expected) => expect(percentOf(cents, percent, mode)).toBe(expected));
  it.each([Number.NaN, Infinity, 1e-9])('refuses %d percent', (percent) =>
    expect(() => percentOf(100, percent, 'halfUp')).toThrow(RangeError),
  );
});

describe('priceOf', () => {
  it('takes decimals as written', () =>
    expect([priceOf(1.005, 100, 'halfUp'), priceOf(3, 0.1, 'up'), priceOf(-2, 62.5, 'halfUp')]).toEqual([101, 1, -125]));
  it('never answers minus zero', () => expect(Object.is(priceOf(-0.001, 100, 'halfUp'), 0)).toBe(true));
});

describe('allocate', () => {
  const rows: [string, number, number[], number[]][] = [
    ['a tie goes to the earlier', 125001, [1, 1], [62501, 62500]],
    ['negative like positive', -10000, [1, 1, 1], [-3334, -3333, -3333]],
    ['weight 0 gets nothing', 7, [0, 1, 0, 1], [0, 4, 0, 3]],
    ['nothing to share', 0, [1, 2], [0, 0]],
    ['amounts near the limit', Number.MAX_SAFE_INTEGER, [1, 1], [4503599627370496, 4503599627370495]],
  ];
  it.each(rows)('%s', (_name, total, weights, expected) => expect(allocate(total, weights)).toEqual(expected));

  it.each([
    ['no weights', 5, []],
    ['all zero', 5, [0, 0]],
    ['negative weight', 5, [2, -1]],
    ['broken weight', 5, [0.5, 1]],
    ['broken cents', 5.5, [1]],
    ['not a number', Number.NaN, [1]],
  ])('refuses %s', (_name, total, weights) => expect(() => allocate(total, weights)).toThrow(RangeError));

  it('keeps the sum, and every share is within a cent of its exact part', () => {
    const weights = fc.array(fc.nat(10_000), { minLength: 1, maxLength: 12 }).filter((list) => list.some((weight) => weight > 0));
    fc.assert(
      fc.property(fc.integer({ min: -50_000_000, max: 50_000_000 }), weights, (total, list) => {
        const shares = allocate(total, list);
        const sum = list.reduce((a, b) => a + b, 0);
        expect(shares.reduce((a, b) => a + b, 0)).toBe(total);
        shares.forEach((share, at) => expect(Math.abs(share - (total * list[at]!) / sum)).toBeLessThan(1));
      }),
      { numRuns: 500 },
    );
  });
});

describe('dollars as written', () => {
  it.each([
    [123450, '$1,234.50'],
    [-500, '-$5.00'],
    [0, '$0.00'],
    [7, '$0.07'],
    [-1, '-$0.01'],
    [100_000_000_00, '$100,000,000.00'],
  ])('%d cents are %s', (cents, text) => {
    expect(formatUsd(cents)).toBe(text);
    expect(parseUsd(text)).toBe(cents);
  });
  it('is short in sentences', () => expect([shortUsd(5000), shortUsd(4950), shortUsd(-5000)]).toEqual(['$50', '$49.50', '-$50']));
  it('refuses broken cents', () => expect(() => formatUsd(0.5)).toThrow(RangeError));
  it.each([
    ['1234.5', 123450],
    [' 1234 ', 123400],
    ['$1,234', 123400],
    ['-5', -500],
    ['0.07', 7],
    ['-0', 0],
    ['12,345,678.90', 1234567890],
  ])('reads "%s"', (text, cents) => expect(parseUsd(text)).toBe(cents));
  it.each([
    '',
    ' ',
    '$',
    '1,23.40',
    '12,34',
    '1.234',
    '1.',
    '.5',
    'five',
    '5 dollars',
    '1e3',
    '--5',
    '$-5',
    '1 000',
    '99999999999999999',
    '0x10',
    '٣',
  ])('does not read "%s"', (text) => expect(parseUsd(text)).toBeNull());
  it('reads back whatever it writes', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e12, max: 1e12 }), (cents) => {
        expect(parseUsd(formatUsd(cents))).toBe(cents);
      }),
      { numRuns: 300 },
    );
  });
});
