// Planned minutes of a visit. The example is a planning formula for a pair (common practice, to be calibrated by each firm):
// 30 + 18 per 500 sq ft + 20 for a house of 50 years or older + 20 crawl space + 10 basement + add-ons.
import { describe, expect, it } from 'vitest';
import { estimateDuration } from '@backsight/domain/jobs/duration';
import type { DurationRule } from '@backsight/domain/jobs/duration';
import type { PropertyFacts } from '@backsight/domain/shared/facts';

const always = { always: true } as const;
const includes = (value: string) => ({ fact: 'foundation', compare: 'includes', value }) as const;

const RULES: DurationRule[] = [
  { key: 'start', label: 'Walk through and wrap up', applies: always, minutes: 30 },
  {
    key: 'size',
    label: 'Size of the house',
    applies: always,
    minutes: { fact: 'livingArea', per: 500, minutes: 18, roundUp: false, assume: 1800 },
  },
  { key: 'old', label: 'Older house', applies: { fact: 'yearBuilt', compare: 'atMost', value: 1976 }, minutes: 20 },
  { key: 'crawl', label: 'Crawl space', applies: includes('crawl_space'), minutes: 20 },
  { key: 'basement', label: 'Basement', applies: includes('basement'), minutes: 10 },
  { key: 'sewer', label: 'Sewer camera', applies: { service: 'sewer' }, minutes: 40 },
  { key: 'writing', label: 'Report', applies: always, minutes: 50, report: true },
  {
    key: 'writing-units',
    label: 'Further units',
    applies: always,
    minutes: { fact: 'units', per: 1, minutes: 15, roundUp: true },
    report: true,
  },
];
const known: PropertyFacts = { livingArea: 1500, yearBuilt: 1995, foundation: ['slab'], units: 1 };
const estimate = (facts: PropertyFacts, services: string[] = []) =>
  estimateDuration(RULES, { facts, services, day: '2026-06-02', serviceNames: { sewer: 'Sewer camera' } });

describe('planning formula', () => {
  it.each([
    ['small and plain: 30 + 54 = 84', known, [], 90],
    ['old with a crawl space: 30 + 64.8 + 20 + 20', { ...known, livingArea: 1800, yearBuilt: 1925, foundation: ['crawl_space'] }, [], 135],
    [
      'large with everything: 30 + 126 + 20 + 20 + 10 + 40',
      { ...known, livingArea: 3500, yearBuilt: 1976, foundation: ['crawl_space', 'basement'] },
      ['sewer'],
      255,
    ],
    ['exactly a quarter hour stays: 30 + 90', { ...known, livingArea: 2500 }, [], 120],
  ] as [string, PropertyFacts, string[], number][])('%s', (_name, facts, services, minutes) =>
    expect(estimate(facts, services).minutes).toBe(minutes),
  );

  it('says why, line by line', () => {
    const { lines, asks } = estimate({ ...known, livingArea: 1800, yearBuilt: 1925 }, ['sewer']);
    expect(lines).toEqual([
      { rule: 'start', label: 'Walk through and wrap up', minutes: 30, reason: 'at every property' },
      { rule: 'size', label: 'Size of the house', minutes: 65, reason: '18 minutes for each 500 sq ft, 1,800 sq ft' },
      { rule: 'old', label: 'Older house', minutes: 20, reason: 'built 1976 or earlier' },
      { rule: 'sewer', label: 'Sewer camera', minutes: 40, reason: 'sewer camera ordered' },
      { rule: 'writing', label: 'Report', minutes: 50, reason: 'at every property', report: true },
      { rule: 'writing-units', label: 'Further units', minutes: 15, reason: '15 minutes for each 1 unit, 1 unit', report: true },
    ]);
    expect(asks).toEqual([]);
  });
});

describe('parts of a unit', () => {
  const rule = (roundUp: boolean): DurationRule => ({
    key: 'size',
    label: 'Size',
    applies: always,
    minutes: { fact: 'livingArea', per: 500, minutes: 18, roundUp },
  });
  it.each([
    [1500, true, 54],
    [1501, true, 72],
    [1500, false, 54],
    [1501, false, 55],
    [100, false, 4],
  ])('%d sq ft, rounded up %s', (livingArea, roundUp, minutes) =>
    expect(estimateDuration([rule(roundUp)], { facts: { livingArea }, services: [], day: '2026-06-02' }).lines[0]?.minutes).toBe(minutes),
  );
});

it('is exact: 60 minutes per 1,000 sq ft at 4,150 sq ft are 249, not a hair above', () => {
  const rule: DurationRule = {
    key: 'size',
    label: 'Size',
    applies: always,
    minutes: { fact: 'livingArea', per: 1000, minutes: 60, roundUp: false },
  };
  expect(estimateDuration([rule], { facts: { livingArea: 4150 }, services: [], day: '2026-06-02' }).lines[0]?.minutes).toBe(249);
});

describe('report time', () => {
  it('is apart from the time on site and rounded by itself', () =>
    expect(estimate({ ...known, units: 2 })).toMatchObject({ minutes: 90, reportMinutes: 90 }));
});

describe('what is not known yet', () => {
  it('is planned for and said', () => {
    const { minutes, lines, asks } = estimate({});
    // 30 + 64.8 assumed + 20 + 20 + 10
    expect(minutes).toBe(150);
    expect(lines.filter(({ assumption }) => assumption).map(({ rule, assumption }) => [rule, assumption])).toEqual([
      ['size', 'Taken until known: living area 1,800 sq ft.'],
      ['old', 'Counted until known: year built.'],
      ['crawl', 'Counted until known: foundation.'],
      ['basement', 'Counted until known: foundation.'],
      ['writing-units', 'Not counted until known: units.'],
    ]);
    expect(asks).toEqual(['livingArea', 'yearBuilt', 'foundation', 'units']);
  });
  it('never makes the estimate shorter than the worst that can still come out', () => {
    const open = estimate({ livingArea: 1500 }).minutes;
    for (const foundation of [['crawl_space'], ['basement'], []] as const)
      expect(estimate({ ...known, foundation }).minutes).toBeLessThanOrEqual(open);
  });
});
