// Random applies-when rules and random knowledge of a property, for property tests.
import fc from 'fast-check';
import type { Applicability } from '@backsight/domain/shared/applicability';
import type { FactKey, PropertyFacts } from '@backsight/domain/shared/facts';

const leaf: fc.Arbitrary<Applicability> = fc.oneof(
  fc.record({
    fact: fc.constant('yearBuilt' as const),
    compare: fc.constantFrom('is', 'atLeast', 'atMost', 'below', 'above'),
    value: fc.constantFrom(1925, 1960, 1978, 2001),
  }),
  fc.record({
    fact: fc.constant('livingArea' as const),
    compare: fc.constantFrom('atLeast', 'atMost', 'below', 'above'),
    value: fc.constantFrom(900, 1800, 3200),
  }),
  fc.record({
    fact: fc.constant('foundation' as const),
    compare: fc.constant('includes' as const),
    value: fc.constantFrom('basement', 'crawl_space', 'slab'),
  }),
  fc.record({
    fact: fc.constant('roofCovering' as const),
    compare: fc.constant('isOneOf' as const),
    value: fc.subarray(['wood', 'metal', 'slate'], { minLength: 1 }),
  }),
  fc.record({ fact: fc.constant('waterOn' as const), compare: fc.constant('is' as const), value: fc.boolean() }),
  fc.record({ service: fc.constantFrom('radon', 'pool', 'irrigation') }),
  fc.constantFrom<Applicability>(
    { seasonFrom: '05-01', seasonTo: '10-15' },
    { seasonFrom: '11-15', seasonTo: '03-31' },
    { fromDay: '2026-06-01' },
    { always: true },
  ),
) as fc.Arbitrary<Applicability>;

/** Rules of up to four levels, all of which pass the check. */
export const anyRule: fc.Arbitrary<Applicability> = fc.letrec<{ rule: Applicability }>((tie) => ({
  rule: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    leaf,
    fc.record({ all: fc.array(tie('rule'), { minLength: 1, maxLength: 3 }) }),
    fc.record({ any: fc.array(tie('rule'), { minLength: 1, maxLength: 3 }) }),
    fc.record({ not: tie('rule') }),
  ),
})).rule;

/** Every fact that the rules look at is known. */
export const fullFacts = fc.record({
  yearBuilt: fc.constantFrom(1910, 1925, 1960, 1977, 1978, 1979, 2020),
  livingArea: fc.constantFrom(600, 900, 1800, 2400, 3200),
  foundation: fc.subarray(['basement', 'crawl_space', 'slab'] as const),
  roofCovering: fc.constantFrom('asphalt', 'wood', 'metal', 'slate'),
  waterOn: fc.boolean(),
}) as fc.Arbitrary<PropertyFacts>;

export const FACTS_USED: readonly FactKey[] = ['yearBuilt', 'livingArea', 'foundation', 'roofCovering', 'waterOn'];

/** Which of the facts are known: any subset. */
export const someFacts = fc.subarray([...FACTS_USED]);

/** Only the named facts. */
export const pick = (facts: PropertyFacts, keys: readonly FactKey[]): PropertyFacts =>
  Object.fromEntries(Object.entries(facts).filter(([key]) => keys.includes(key as FactKey)));

export const anyDay = fc.constantFrom('2026-01-15', '2026-05-01', '2026-05-31', '2026-06-01', '2026-10-15', '2026-10-16', '2026-12-31');
export const anyServices = fc.subarray(['radon', 'pool', 'irrigation']);
