// Tag: time.
// The fee of a job: each kind of rule does it, stays quiet, and says what it does not know.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quoteFee, unpricedServices } from '@backsight/domain/fees/quote';
import type { FeeLine, FeeRule } from '@backsight/domain/fees/schedule';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { PLAIN, RULES, SCHEDULE, context } from './schedule-example.ts';

const without = (...keys: (keyof PropertyFacts)[]): PropertyFacts =>
  Object.fromEntries(Object.entries(PLAIN).filter(([key]) => !keys.includes(key as keyof PropertyFacts)));
const only = (rules: FeeRule[], ...rest: Parameters<typeof context>) => quoteFee({ rules }, context(...rest));
const cents = (lines: FeeLine[]): Record<string, number> => Object.fromEntries(lines.map((line) => [line.rule, line.cents]));

describe('a plain house', () => {
  it('has one line, no assumption, nothing to ask', () => {
    expect(quoteFee(SCHEDULE, context())).toEqual({
      lines: [{ rule: 'base', label: 'Inspection', reason: 'living area 1,600 sq ft', cents: 40000 }],
      totalCents: 40000,
      assumptions: [],
      asks: [],
    });
  });
});

describe('a big old house far away with everything', () => {
  const facts: PropertyFacts = { livingArea: 3600, yearBuilt: 1925, foundation: ['crawl_space'], panels: 3, occupied: 'vacant' };
  const quote = quoteFee(SCHEDULE, context(facts, { services: ['radon', 'wdi'], travelMinutes: 45 }));
  it('adds line by line', () => {
    // 450 + 3 started steps of 50 + 2 panels of 15 + 50 + 75 + 175 + 40 = 970; 7.5 % of it is 72.75; 25 off.
    expect(cents(quote.lines)).toEqual({
      base: 45000,
      size: 15000,
      panels: 3000,
      old: 5000,
      crawl: 7500,
      radon: 17500,
      travel: 4000,
      both: -7275,
      repeat: -2500,
    });
    expect(quote.totalCents).toBe(87225);
  });
  it('says why, line by line', () => {
    expect(quote.lines.map(({ reason }) => reason)).toEqual([
      'living area 3,600 sq ft',
      '3,600 sq ft: 3 x $50 for each 500 sq ft over 2,500 sq ft',
      '3 electrical panels: 2 x $15 for each one over 1 electrical panel',
      'built before 1980',
      'the foundation includes a crawl space',
      'ordered',
      '45 minutes of travel one way',
      'radon and insects ordered together, 7.5% of $970.00',
      'vacant house',
    ]);
    expect(quote.assumptions).toEqual([]);
  });
});

describe('limits', () => {
  it.each([
    [1000, 30000],
    [1001, 40000],
    [2000, 40000],
    [2001, 45000],
    [20000, 45000],
  ])('base at %d sq ft', (livingArea, expected) => expect(only([RULES.base], { livingArea }).totalCents).toBe(expected));
  it.each([
    [2500, 0],
    [2501, 5000],
    [3000, 5000],
    [3001, 10000],
  ])('started steps at %d sq ft', (livingArea, expected) => expect(only([RULES.size], { livingArea }).totalCents).toBe(expected));
  it.each([
    [0, 0],
    [30, 0],
    [31, 4000],
    [60, 4000],
    [61, 9000],
  ])('travel of %d minutes', (travelMinutes, expected) => expect(only([RULES.travel], PLAIN, { travelMinutes }).totalCents).toBe(expected));
  it('lifts to the least fee after discounts', () => {
    const quote = only([RULES.base, RULES.repeat, RULES.least], { livingArea: 900, occupied: 'vacant' });
    expect(cents(quote.lines)).toEqual({ base: 30000, repeat: -2500, least: 7500 });
    expect(quote.lines.at(-1)?.reason).toBe('the least fee is $350');
  });
  it('adds no line when the sum is just the least fee', () => {
    expect(only([RULES.base, { ...RULES.least, cents: 30000 }], { livingArea: 900 }).lines).toHaveLength(1);
  });
  it('takes a percentage of the charges before any discount, whatever the order', () => {
    const half: FeeRule = { ...RULES.both, applies: { always: true }, percent: 50 };
    const quote = only([RULES.base, RULES.repeat, half], { livingArea: 900, occupied: 'vacant' });
    expect(cents(quote.lines)).toEqual({ base: 30000, repeat: -2500, both: -15000 });
  });
  it('never falls below zero', () => {
    const gift: FeeRule = { ...RULES.repeat, applies: { always: true }, cents: 99999999 };
    const quote = only([RULES.base, gift, { ...RULES.both, applies: { always: true } }], { livingArea: 900 });
    expect(cents(quote.lines)).toEqual({ base: 30000, repeat: -30000 });
    expect(quote.totalCents).toBe(0);
  });
});

describe('what is not known yet', () => {
  it('living area: the assumed size is charged and said', () => {
    const quote = quoteFee(SCHEDULE, context(without('livingArea')));
    expect(quote.lines[0]).toEqual({
      rule: 'base',
      label: 'Inspection',
      reason: 'living area 1,800 sq ft',
      cents: 40000,
      assumption: 'Taken until known: living area 1,800 sq ft.',
    });
    expect(quote.assumptions).toEqual([
      'Inspection: Taken until known: living area 1,800 sq ft.',
      'Large house: Taken until known: living area 1,800 sq ft.',
    ]);
    expect(quote.asks).toEqual(['livingArea']);
  });
  it('a surcharge is not charged but said', () => {
    const quote = quoteFee(SCHEDULE, context(without('yearBuilt')));
    expect(quote.totalCents).toBe(40000);
    expect(quote.assumptions).toEqual(['Older house may add $50 if built before 1980.']);
    expect(quote.asks).toEqual(['yearBuilt']);
  });
  it('a count without an assumed value is not charged but said', () => {
    expect(quoteFee(SCHEDULE, context(without('panels'))).assumptions).toEqual([
      'Further panels may add $15 for each one over 1 electrical panel.',
    ]);
  });
  it('a step rule that only may apply is not charged but said', () => {
    const rule: FeeRule = { ...RULES.size, applies: RULES.old.applies };
    const quote = only([rule], { livingArea: 3000 });
    expect(quote.assumptions).toEqual(['Large house may add $50 for each 500 sq ft over 2,500 sq ft if built before 1980.']);
    expect(quote.lines).toEqual([]);
    expect(only([rule], { livingArea: 2000 }).assumptions).toEqual([]);
  });
  it('travel', () => {
    expect(quoteFee(SCHEDULE, context(PLAIN, { travelMinutes: null })).assumptions).toEqual(['Travel may add up to $90.']);
  });
  it('a discount is not given but said', () => {
    expect(quoteFee(SCHEDULE, context(without('occupied'))).assumptions).toEqual(['Vacant house may take off $25 if the house is vacant.']);
  });
  it('a minimum is not applied but said', () => {
    const quote = only([RULES.base, { ...RULES.least, applies: RULES.old.applies }], { livingArea: 900 });
    expect(quote).toMatchObject({ totalCents: 30000, assumptions: ['Least fee: the fee is at least $350 if built before 1980.'] });
  });
  it('an ordered service is charged, with what was assumed', () => {
    const rule: FeeRule = { ...RULES.radon, applies: RULES.crawl.applies };
    const quote = only([rule], {}, { services: ['radon'] });
    expect(quote.totalCents).toBe(17500);
    expect(quote.assumptions).toEqual(['Radon test: Counted until known: foundation.']);
    expect(only([rule], {}).assumptions).toEqual([]);
    expect(only([rule], {}).asks).toEqual([]);
  });
});

describe('one base, one price per service', () => {
  const condo: FeeRule = {
    ...RULES.base,
    key: 'condo',
    label: 'Condominium',
    applies: { fact: 'kind', compare: 'is', value: 'condominium' },
    bands: [{ upToSqFt: null, cents: 33000 }],
  };
  const well: FeeRule = {
    ...RULES.radon,
    key: 'radon-well',
    label: 'Radon in water',
    applies: { fact: 'waterSource', compare: 'is', value: 'private_well' },
    cents: 20000,
  };
  it('takes the first base that surely applies', () => {
    expect(cents(only([condo, RULES.base], { ...PLAIN, kind: 'condominium' }).lines)).toEqual({ condo: 33000 });
    expect(cents(only([condo, RULES.base], { ...PLAIN, kind: 'single_family' }).lines)).toEqual({ base: 40000 });
  });
  it('says which base may take its place', () => {
    expect(only([condo, RULES.base], PLAIN)).toMatchObject({
      totalCents: 40000,
      assumptions: ['"Condominium" may take its place once the facts are known.'],
      asks: ['kind'],
    });
  });
  it('still charges a base when none is sure', () => {
    const quote = only([condo], PLAIN);
    expect(quote.totalCents).toBe(33000);
    expect(quote.assumptions).toEqual(['Condominium: Counted until known: kind of building.']);
  });
  it('counts an open price for a service once', () => {
    const other: FeeRule = {
      ...well,
      key: 'radon-public',
      label: 'Radon in air',
      applies: { fact: 'waterSource', compare: 'is', value: 'public' },
      cents: 15000,
    };
    expect(cents(only([well, other], {}, { services: ['radon'] }).lines)).toEqual({ 'radon-well': 20000 });
    expect(cents(only([other, RULES.radon, well], {}, { services: ['radon'] }).lines)).toEqual({ radon: 17500 });
    expect(cents(only([well, other], { waterSource: 'public' }, { services: ['radon'] }).lines)).toEqual({ 'radon-public': 15000 });
  });
});

describe('unpricedServices', () => {
  it('names ordered services without a price', () => {
    expect(unpricedServices(SCHEDULE, ['inspection', 'radon', 'wdi'], 'inspection')).toEqual(['wdi']);
  });
});

describe('for any house', () => {
  const facts = fc.record(
    {
      livingArea: fc.integer({ min: 100, max: 30000 }),
      yearBuilt: fc.integer({ min: 1700, max: 2100 }),
      foundation: fc.subarray(['crawl_space', 'basement', 'slab'] as const),
      panels: fc.nat(10),
      occupied: fc.constantFrom('occupied', 'vacant' as const),
    },
    { requiredKeys: [] },
  ) as fc.Arbitrary<PropertyFacts>;
  const contexts = fc
    .tuple(facts, fc.subarray(['radon', 'wdi']), fc.option(fc.nat(200)))
    .map(([known, services, travelMinutes]) => context(known, { services, travelMinutes }));

  it('the total is the sum of the lines, at least the minimum, whole cents, and every line has its reason', () => {
    fc.assert(
      fc.property(contexts, (at) => {
        const quote = quoteFee(SCHEDULE, at);
        expect(quote.lines.reduce((sum, line) => sum + line.cents, 0)).toBe(quote.totalCents);
        expect(quote.totalCents).toBeGreaterThanOrEqual(35000);
        expect(quote.lines.every((line) => Number.isSafeInteger(line.cents) && line.reason !== '')).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
  it('asks exactly when a fact is missing that the schedule looks at', () => {
    fc.assert(
      fc.property(contexts, (at) => {
        const missing = (['livingArea', 'panels', 'yearBuilt', 'foundation', 'occupied'] as const).filter(
          (fact) => at.facts[fact] === undefined,
        );
        expect([...quoteFee(SCHEDULE, at).asks].sort()).toEqual([...missing].sort());
      }),
      { numRuns: 200 },
    );
  });
});
