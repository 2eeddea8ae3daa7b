// How rules read, from one condition to nested groups.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Applicability } from '@backsight/domain/shared/applicability';
import { FACTS } from '@backsight/domain/shared/facts';
import type { FactDefinition, FactKey } from '@backsight/domain/shared/facts';
import { inWords } from '@backsight/domain/shared/english';
import { measured } from '@backsight/domain/shared/phrases';
import { anyRule } from './rules-arbitrary.ts';

const NAMES = { irrigation: 'Lawn sprinklers', wdi: 'WDI report' };
const old: Applicability = { fact: 'yearBuilt', compare: 'atMost', value: 1978 };
const crawl: Applicability = { fact: 'foundation', compare: 'includes', value: 'crawl_space' };
const pool: Applicability = { fact: 'features', compare: 'includes', value: 'pool' };
const big: Applicability = { fact: 'livingArea', compare: 'above', value: 3000 };
const sprinklers: Applicability = { service: 'irrigation' };

const rows: [Applicability, string, string][] = [
  [{ always: true }, 'at every property', 'at no property'],
  [old, 'built 1978 or earlier', 'built after 1978'],
  [{ fact: 'yearBuilt', compare: 'below', value: 1980 }, 'built before 1980', 'built 1980 or later'],
  [{ fact: 'yearBuilt', compare: 'is', value: 1980 }, 'built in 1980', 'not built in 1980'],
  [big, 'living area over 3,000 sq ft', 'living area 3,000 sq ft or less'],
  [{ fact: 'livingArea', compare: 'atLeast', value: 900 }, 'living area 900 sq ft or more', 'living area under 900 sq ft'],
  [{ fact: 'livingArea', compare: 'is', value: 900 }, 'living area exactly 900 sq ft', 'living area not exactly 900 sq ft'],
  [{ fact: 'heatingSystems', compare: 'atLeast', value: 2 }, '2 or more heating systems', 'fewer than 2 heating systems'],
  [{ fact: 'outbuildings', compare: 'above', value: 0 }, 'at least one outbuilding', 'no outbuildings'],
  [{ fact: 'stories', compare: 'is', value: 1 }, 'exactly 1 story', 'not exactly 1 story'],
  [{ fact: 'stories', compare: 'above', value: 2 }, 'more than 2 stories', 'at most 2 stories'],
  [crawl, 'the foundation includes a crawl space', 'the foundation does not include a crawl space'],
  [{ fact: 'foundation', compare: 'includes', value: 'piers' }, 'the foundation includes piers', 'the foundation does not include piers'],
  [pool, 'there is a pool', 'there is no pool'],
  [{ fact: 'features', compare: 'includes', value: 'attic' }, 'there is an attic', 'there is no attic'],
  [{ fact: 'features', compare: 'includes', value: 'lawn_sprinklers' }, 'there are lawn sprinklers', 'there are no lawn sprinklers'],
  [{ fact: 'kind', compare: 'is', value: 'condominium' }, 'the building is a condominium unit', 'the building is not a condominium unit'],
  [
    { fact: 'roofCovering', compare: 'isOneOf', value: ['wood', 'metal', 'slate'] },
    'the roof covering is wood shake, metal or slate',
    'the roof covering is not wood shake, metal or slate',
  ],
  [{ fact: 'coolingKind', compare: 'is', value: 'none' }, 'there is no cooling', 'there is cooling'],
  [
    { fact: 'waterSource', compare: 'is', value: 'private_well' },
    'the water comes from a private well',
    'the water does not come from a private well',
  ],
  [{ fact: 'occupied', compare: 'is', value: 'vacant' }, 'the house is vacant', 'the house is not vacant'],
  [{ fact: 'waterOn', compare: 'is', value: true }, 'the water is on', 'the water is off'],
  [{ fact: 'winterized', compare: 'is', value: false }, 'the house is not winterized', 'the house is winterized'],
  [sprinklers, 'lawn sprinklers ordered', 'lawn sprinklers not ordered'],
  [{ service: 'wdi' }, 'WDI report ordered', 'WDI report not ordered'],
  [{ service: 'no-name' }, 'no-name ordered', 'no-name not ordered'],
  [{ seasonFrom: '05-01', seasonTo: '10-15' }, 'from May 1 to October 15', 'not from May 1 to October 15'],
  [{ fromDay: '2026-05-01' }, 'from May 1, 2026 on', 'before May 1, 2026'],
];

describe('one condition and its opposite', () => {
  it.each(rows)('%j', (rule, words, opposite) => {
    expect(inWords(rule, NAMES)).toBe(words);
    expect(inWords({ not: rule }, NAMES)).toBe(opposite);
    expect(inWords({ not: { not: rule } }, NAMES)).toBe(words);
  });
});

describe('groups', () => {
  const groups: [string, Applicability, string][] = [
    ['two', { all: [old, crawl] }, 'built 1978 or earlier and the foundation includes a crawl space'],
    [
      'three',
      { all: [old, crawl, sprinklers] },
      'built 1978 or earlier, the foundation includes a crawl space and lawn sprinklers ordered',
    ],
    ['or', { any: [old, crawl] }, 'built 1978 or earlier, or the foundation includes a crawl space'],
    ['one is no group', { all: [{ any: [old] }] }, 'built 1978 or earlier'],
    [
      'same word flows together',
      { all: [old, { all: [crawl, pool] }] },
      'built 1978 or earlier, the foundation includes a crawl space and there is a pool',
    ],
    [
      'either inside and, groups last',
      { all: [{ any: [crawl, pool] }, sprinklers] },
      'lawn sprinklers ordered, and either the foundation includes a crawl space or there is a pool',
    ],
    [
      'both inside or',
      { any: [pool, { all: [big, crawl] }] },
      'there is a pool, or both living area over 3,000 sq ft and the foundation includes a crawl space',
    ],
    ['not of a group', { not: { all: [old, crawl] } }, 'built after 1978, or the foundation does not include a crawl space'],
    [
      'three levels',
      { all: [sprinklers, { any: [pool, { all: [big, crawl] }] }] },
      'lawn sprinklers ordered, and either there is a pool, or (both living area over 3,000 sq ft and the foundation includes a crawl space)',
    ],
  ];
  it.each(groups)('%s', (_name, rule, words) => expect(inWords(rule, NAMES)).toBe(words));
});

describe('every fact of the catalogue reads well', () => {
  const rulesOf = ([fact, definition]: [string, FactDefinition]): Applicability[] => {
    const key = fact as FactKey;
    if (definition.type === 'number')
      return (['is', 'atLeast', 'atMost', 'below', 'above'] as const).map((compare) => ({ fact: key, compare, value: definition.min + 1 }));
    if (definition.type === 'yesNo') return [{ fact: key, compare: 'is', value: true }];
    return Object.keys(definition.options).map((value) => ({ fact: key, compare: definition.type === 'set' ? 'includes' : 'is', value }));
  };
  it.each(Object.entries(FACTS).flatMap(rulesOf))('%j', (rule) => {
    for (const words of [inWords(rule), inWords({ not: rule })]) {
      expect(words).toMatch(/^[a-z0-9][a-z0-9 ,-]+$/);
      expect(words).not.toMatch(/undefined|_|NaN|: (yes|no)$|\ba [aeio]|\ban [^aeiou]| {2}/);
    }
    expect(inWords(rule)).not.toBe(inWords({ not: rule }));
  });
  it('any rule has words', () => {
    fc.assert(
      fc.property(anyRule, (rule) => {
        expect(inWords(rule, NAMES)).not.toMatch(/undefined|\[object|^$/);
      }),
      { numRuns: 300 },
    );
  });
});

describe('measured', () => {
  it.each([
    ['yearBuilt', 1925, '1925'],
    ['livingArea', 1800, '1,800 sq ft'],
    ['heatingSystems', 2, '2 heating systems'],
    ['stories', 1, '1 story'],
    ['bathrooms', 2.5, '2.5 bathrooms'],
  ] as const)('%s %d', (fact, value, words) => expect(measured(fact, value)).toBe(words));
});
