// Rounding and sharing of money, as published.
import type { PublishedCase } from './publishedCase.ts';

/** java.math.RoundingMode, summary table (Oracle, API documentation), found; in the order of the inputs. */
export const roundingInputs = [5.5, 2.5, 1.6, 1.1, 1, -1, -1.1, -1.6, -2.5, -5.5];

export const roundings = [
  { rounding: 'up', results: [6, 3, 2, 2, 1, -1, -2, -2, -3, -6] },
  { rounding: 'down', results: [5, 2, 1, 1, 1, -1, -1, -1, -2, -5] },
  { rounding: 'ceiling', results: [6, 3, 2, 2, 1, -1, -1, -1, -2, -5] },
  { rounding: 'floor', results: [5, 2, 1, 1, 1, -1, -2, -2, -3, -6] },
  { rounding: 'halfUp', results: [6, 3, 2, 1, 1, -1, -1, -2, -3, -6] },
  { rounding: 'halfDown', results: [5, 2, 2, 1, 1, -1, -1, -2, -2, -5] },
  { rounding: 'halfEven', results: [6, 2, 2, 1, 1, -1, -1, -2, -2, -6] },
] as const;

const tiesToEven = 'IEEE 754-2019, roundTiesToEven; ISO 80000-1 rule B';

/** Dollars rounded to cents, computed. */
export const ties: (PublishedCase & { dollars: number; halfUp: number; halfEven: number })[] = [
  { name: '0.005', source: tiesToEven, status: 'computed', dollars: 0.005, halfUp: 1, halfEven: 0 },
  { name: '0.015', source: tiesToEven, status: 'computed', dollars: 0.015, halfUp: 2, halfEven: 2 },
  { name: '0.025', source: tiesToEven, status: 'computed', dollars: 0.025, halfUp: 3, halfEven: 2 },
  { name: '1.005', source: tiesToEven, status: 'computed', dollars: 1.005, halfUp: 101, halfEven: 100 },
  { name: '2.675', source: tiesToEven, status: 'computed', dollars: 2.675, halfUp: 268, halfEven: 268 },
  { name: '-0.005', source: tiesToEven, status: 'computed', dollars: -0.005, halfUp: -1, halfEven: 0 },
  { name: '-2.675', source: tiesToEven, status: 'computed', dollars: -2.675, halfUp: -268, halfEven: -268 },
  { name: '1.0049999', source: tiesToEven, status: 'computed', dollars: 1.0049999, halfUp: 100, halfEven: 100 },
];

const fowler = 'Fowler, Patterns of Enterprise Application Architecture (2002), Money, pp. 488-495';

/** Largest remainder, ties to the first. */
export const shares: (PublishedCase & { cents: number; weights: number[]; shares: number[] })[] = [
  {
    name: 'Foemmel: 5 cents 30/70',
    source: fowler,
    status: 'problem found, result from memory',
    cents: 5,
    weights: [3, 7],
    shares: [2, 3],
  },
  {
    name: 'Foemmel reversed: 5 cents 70/30',
    source: fowler,
    status: 'problem found, result computed',
    cents: 5,
    weights: [7, 3],
    shares: [4, 1],
  },
  {
    name: '100.00 in three',
    source: 'exact fractions',
    status: 'computed',
    cents: 10000,
    weights: [1, 1, 1],
    shares: [3334, 3333, 3333],
  },
  {
    name: 'pair split 1250.01 50/50',
    source: 'exact fractions',
    status: 'computed',
    cents: 125001,
    weights: [1, 1],
    shares: [62501, 62500],
  },
  {
    name: 'six-party Hare quota 10 seats',
    source: 'Largest remainder method, Hare quota, the usual worked example of six parties',
    status: 'from memory, recomputed',
    cents: 10,
    weights: [47000, 16000, 15900, 12000, 6000, 3100],
    shares: [5, 2, 1, 1, 1, 0],
  },
];

const mileage = 'IRS Notice 2026-10, standard mileage rate for business 2026, 72.5 cents';

export const drives: (PublishedCase & { miles: number; centsEach: number; halfUp: number; halfEven: number })[] = [
  { name: '37.4 miles', source: mileage, status: 'rate found, product computed', miles: 37.4, centsEach: 72.5, halfUp: 2712, halfEven: 2712 },
  { name: '18.2 miles', source: mileage, status: 'rate found, product computed', miles: 18.2, centsEach: 72.5, halfUp: 1320, halfEven: 1320 },
];
