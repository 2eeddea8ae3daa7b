// Rules that must not be stored, each with its sentence, and rules that may.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Applicability } from '@backsight/domain/shared/applicability';
import { checkRule } from '@backsight/domain/shared/rule-check';
import { anyRule } from './rules-arbitrary.ts';

const bad = (rule: unknown): Applicability => rule as Applicability;

describe('checkRule', () => {
  const rows: [string, unknown, string][] = [
    ['unknown fact', { fact: 'color', compare: 'is', value: 'red' }, 'There is no fact "color".'],
    ['inherited name is no fact', { fact: 'constructor', compare: 'is', value: 'red' }, 'There is no fact "constructor".'],
    [
      'comparison of another type',
      { fact: 'yearBuilt', compare: 'includes', value: 1978 },
      'Year built cannot be compared with "includes".',
    ],
    [
      'choice with at least',
      { fact: 'kind', compare: 'atLeast', value: 'condominium' },
      'Kind of building cannot be compared with "at least".',
    ],
    ['set with is', { fact: 'foundation', compare: 'is', value: 'slab' }, 'Foundation cannot be compared with "is".'],
    ['number as text', { fact: 'yearBuilt', compare: 'atMost', value: '1978' }, 'Year built is compared with a number.'],
    ['not a number', { fact: 'yearBuilt', compare: 'atMost', value: Number.NaN }, 'Year built is compared with a number.'],
    ['out of range', { fact: 'yearBuilt', compare: 'atMost', value: 78 }, 'Year built lies between 1700 and 2100, not 78.'],
    ['unknown option', { fact: 'foundation', compare: 'includes', value: 'cellar' }, 'Foundation has no option "cellar".'],
    [
      'unknown option in a list',
      { fact: 'roofCovering', compare: 'isOneOf', value: ['slate', 'straw'] },
      'Roof covering has no option "straw".',
    ],
    ['list where one is wanted', { fact: 'roofCovering', compare: 'is', value: ['slate'] }, 'Roof covering: "is" takes one option.'],
    [
      'one where a list is wanted',
      { fact: 'roofCovering', compare: 'isOneOf', value: 'slate' },
      'Roof covering: "is one of" takes a list of options.',
    ],
    ['empty list', { fact: 'roofCovering', compare: 'isOneOf', value: [] }, 'Roof covering needs at least one option.'],
    ['yes or no as text', { fact: 'waterOn', compare: 'is', value: 'yes' }, 'Water on is yes or no.'],
    ['empty group', { all: [] }, 'A group needs at least one part.'],
    [
      'deep inside',
      { not: { any: [{ always: true }, { all: [{ fromDay: '2026-13-01' }] }] } },
      '"2026-13-01" is not a day like 2026-05-01.',
    ],
    ['day that does not exist', { fromDay: '2026-02-29' }, '"2026-02-29" is not a day like 2026-05-01.'],
    ['month and day that do not exist', { seasonFrom: '04-31', seasonTo: '10-15' }, '"04-31" is not a month and day like 05-01.'],
    ['season end malformed', { seasonFrom: '05-01', seasonTo: 'October' }, '"October" is not a month and day like 05-01.'],
  ];
  it.each(rows)('%s', (_name, rule, sentence) => expect(checkRule(bad(rule))).toEqual([sentence]));

  it('reports every problem', () => {
    expect(checkRule(bad({ all: [{ fromDay: 'soon' }, { fact: 'kind', compare: 'is', value: 'castle' }] }))).toHaveLength(2);
  });
  it('knows the services of the firm when told', () => {
    expect(checkRule({ service: 'radon' }, ['pool'])).toEqual(['There is no service "radon".']);
    expect(checkRule({ not: { service: 'radon' } }, ['radon'])).toEqual([]);
    expect(checkRule({ service: 'radon' })).toEqual([]);
  });
  it('stays quiet for good rules', () => {
    fc.assert(
      fc.property(anyRule, (rule) => {
        expect(checkRule(rule)).toEqual([]);
      }),
      { numRuns: 200 },
    );
    expect(checkRule({ seasonFrom: '12-01', seasonTo: '02-29' })).toEqual([]);
  });
});
