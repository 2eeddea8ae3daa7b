// What a visit demands, and that the unknown is demanded.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { requirements } from '@backsight/domain/schedule/requirements';
import type { RequirementRule } from '@backsight/domain/schedule/requirements';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { fullFacts, pick, someFacts } from '../shared/rules-arbitrary.ts';

const always = { always: true } as const;
const crawl = { fact: 'foundation', compare: 'includes', value: 'crawl_space' } as const;

const RULES: RequirementRule[] = [
  { key: 'license', label: 'State registration', applies: always, need: { kind: 'license', license: 'wi_home_inspector' } },
  { key: 'crawl', label: 'Crawl space entry', applies: crawl, need: { kind: 'qualification', key: 'crawl_entry', who: 'each' } },
  { key: 'suits', label: 'Crawl space suits', applies: crawl, need: { kind: 'kit', kit: 'crawl_suits' } },
  { key: 'pool', label: 'Pool', applies: { service: 'pool' }, need: { kind: 'qualification', key: 'pool', who: 'any' } },
  {
    key: 'roof',
    label: 'Roof seen by daylight',
    applies: { not: { fact: 'kind', compare: 'is', value: 'condominium' } },
    need: { kind: 'daylight', offsetMinutes: 45 },
  },
  {
    key: 'steep',
    label: 'Slate roof',
    applies: { fact: 'roofCovering', compare: 'is', value: 'slate' },
    need: { kind: 'daylight', offsetMinutes: 90 },
  },
  { key: 'meter', label: 'Moisture meter', applies: always, need: { kind: 'kit', kit: 'moisture_meter' } },
  {
    key: 'meter-again',
    label: 'Moisture meter for basements',
    applies: { fact: 'foundation', compare: 'includes', value: 'basement' },
    need: { kind: 'kit', kit: 'moisture_meter' },
  },
];
const known: PropertyFacts = { kind: 'single_family', foundation: ['slab'], roofCovering: 'asphalt' };
const demand = (facts: PropertyFacts, services: string[] = [], rules = RULES) =>
  requirements(rules, { facts, services, day: '2026-06-02' });

describe('requirements', () => {
  it('a plain house', () => {
    expect(demand(known)).toEqual({
      needEach: ['wi_home_inspector'],
      needAny: [],
      kit: ['moisture_meter'],
      roofWork: { offsetMinutes: 45 },
      reasons: [
        { rule: 'license', kind: 'license', need: 'wi_home_inspector', reason: 'State registration: at every property', asks: [] },
        {
          rule: 'roof',
          kind: 'daylight',
          need: 'daylight',
          reason: 'Roof seen by daylight: the building is not a condominium unit',
          asks: [],
        },
        { rule: 'meter', kind: 'kit', need: 'moisture_meter', reason: 'Moisture meter: at every property', asks: [] },
      ],
    });
  });
  it('crawl space, slate and pool; each need once, the stricter daylight', () => {
    expect(demand({ ...known, foundation: ['crawl_space', 'basement'], roofCovering: 'slate' }, ['pool'])).toMatchObject({
      needEach: ['crawl_entry', 'wi_home_inspector'],
      needAny: ['pool'],
      kit: ['crawl_suits', 'moisture_meter'],
      roofWork: { offsetMinutes: 90 },
    });
  });
  it('no roof, no daylight', () => expect(demand({ ...known, kind: 'condominium' })).not.toHaveProperty('roofWork'));
  it('what each must have need not be asked of any', () => {
    const both: RequirementRule[] = [
      { key: 'a', label: 'A', applies: always, need: { kind: 'qualification', key: 'radon', who: 'each' } },
      { key: 'b', label: 'B', applies: always, need: { kind: 'qualification', key: 'radon', who: 'any' } },
    ];
    expect(demand(known, [], both)).toMatchObject({ needEach: ['radon'], needAny: [] });
  });
  it('demands what is not known yet and says so', () => {
    const open = demand({ kind: 'single_family', roofCovering: 'asphalt' });
    expect(open.needEach).toEqual(['crawl_entry', 'wi_home_inspector']);
    expect(open.reasons.find(({ need }) => need === 'crawl_entry')?.asks).toEqual(['foundation']);
    expect(open.reasons.find(({ need }) => need === 'crawl_entry')?.reason).toBe(
      'Crawl space entry: the foundation includes a crawl space (demanded because it is not known yet: foundation)',
    );
  });
  it('learning a fact only ever takes demands away', () => {
    fc.assert(
      fc.property(fullFacts, someFacts, (facts, keys) => {
        const before = demand(pick(facts, keys));
        const after = demand(facts);
        expect(before.needEach).toEqual(expect.arrayContaining(after.needEach));
        expect(before.kit).toEqual(expect.arrayContaining(after.kit));
        expect(before.roofWork?.offsetMinutes ?? 0).toBeGreaterThanOrEqual(after.roofWork?.offsetMinutes ?? 0);
      }),
      { numRuns: 200 },
    );
  });
});
