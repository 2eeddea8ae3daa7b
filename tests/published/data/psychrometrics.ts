// Dew points and the moisture at which wood comes to rest, as published or computed with another program.
import type { PublishedCase } from './publishedCase.ts';

type DewPoint = PublishedCase & { airF: number; rh: number; dewF: number; toF: number };
const PSYCHROLIB = 'psychrolib 1.1.1 (Hyland and Wexler, as in ASHRAE Fundamentals 2017, chapter 1)';

export const dewPoints: DewPoint[] = [
  {
    name: '40 C dry bulb, 20 C wet bulb (14 %): 7 C',
    source: '2017 ASHRAE Handbook - Fundamentals, chapter 1, Example 1',
    status: 'found; the example reads a chart to half a degree C',
    airF: 104,
    rh: 13.979488584320995,
    dewF: 44.6,
    toF: 0.9,
  },
  { name: '70 F, 50 %', source: PSYCHROLIB, status: 'computed', airF: 70, rh: 50, dewF: 50.528322656670724, toF: 0.2 },
  { name: '68 F, 30 %', source: PSYCHROLIB, status: 'computed', airF: 68, rh: 30, dewF: 35.44568866212604, toF: 0.2 },
  { name: '20 C, 50 %', source: PSYCHROLIB, status: 'computed', airF: 68, rh: 50, dewF: 32 + 9.272392288187499 * 1.8, toF: 0.18 },
  { name: '25 C, 60 %', source: PSYCHROLIB, status: 'computed', airF: 77, rh: 60, dewF: 32 + 16.701131854221103 * 1.8, toF: 0.18 },
  { name: '21.1 C, 45 %', source: PSYCHROLIB, status: 'computed', airF: 69.98, rh: 45, dewF: 32 + 8.717001980482785 * 1.8, toF: 0.18 },
  {
    name: '20 C, 50 %, Magnus form',
    source: 'Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601-609',
    status: 'coefficients from memory; computed',
    airF: 68,
    rh: 50,
    dewF: 32 + 9.261106630534236 * 1.8,
    toF: 1e-9,
  },
];

type AtRest = PublishedCase & { airF: number; rh: readonly number[]; percent: readonly number[]; to: number };
const HANDBOOK = 'USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-282, 2021), chapter 4';

export const woodAtRestCases: AtRest[] = [
  {
    name: '70 F, 5 to 95 %',
    source: `${HANDBOOK}, Table 4-2`,
    status: 'table row from memory, reproduced by the equation',
    airF: 70,
    rh: [5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95],
    percent: [1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5, 23.9],
    to: 0.15,
  },
  {
    name: '70 F, spot values',
    source: `${HANDBOOK}, examples of the equation`,
    status: 'found',
    airF: 70,
    rh: [25, 60, 84, 87],
    percent: [5.3, 11.1, 17.6, 19.0],
    to: 0.15,
  },
  { name: '140 F, 55 %', source: `${HANDBOOK}, examples of the equation`, status: 'found', airF: 140, rh: [55], percent: [8.4], to: 0.15 },
  {
    name: 'equation 4-5 at 70 F',
    source: `${HANDBOOK}, equation 4-5, computed with Python 3.11`,
    status: 'coefficients from memory; computed',
    airF: 70,
    rh: [5, 50, 95],
    percent: [1.2988372756023332, 9.246305907586478, 23.902294995878677],
    to: 1e-9,
  },
];
