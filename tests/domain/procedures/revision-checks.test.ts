// The checks of a revision: each names its problem, and stays quiet on steps that are in order.
import { describe, expect, it } from 'vitest';
import { checkRevision } from '@backsight/domain/procedures/book';
import { siteBudget } from '@backsight/domain/procedures/budget';
import type { Evidence, Step } from '@backsight/domain/procedures/step';

const step = (key: string, change: Partial<Step> = {}): Step => ({
  key,
  title: 'Title',
  instruction: 'Do it.',
  why: 'Because.',
  evidence: { kind: 'confirm' },
  applies: { always: true },
  per: 'property',
  basis: { kind: 'own_extra' },
  who: 'either',
  style: 'do_then_confirm',
  minutes: 1,
  kit: [],
  after: [],
  references: [],
  ...change,
});
const count: Evidence = { kind: 'count', of: 'lamps' };
const matching: Evidence = { kind: 'count', of: 'lamps', mustMatch: 'first' };
const group = (key: string, change: Partial<Step> = {}) => step(key, { sequence: 'g', ...change });

const GOOD: readonly (readonly [string, readonly Step[]])[] = [
  ['no step', []],
  ['plain steps', [step('one'), step('two', { after: ['one'] })]],
  ['a count that matches an earlier one', [step('first', { evidence: count }), step('second', { evidence: matching, after: ['first'] })]],
  [
    'a count that matches one two steps back',
    [step('first', { evidence: count }), step('between', { after: ['first'] }), step('second', { evidence: matching, after: ['between'] })],
  ],
  [
    'a sequence in its order',
    [step('one'), group('two', { after: ['one'] }), group('three', { after: ['two'] }), step('four', { after: ['three'] })],
  ],
  ['kit that can hurt, with a caution', [step('one', { kit: ['ladder'], caution: 'Tie it.', style: 'read_then_do' })]],
  ['read first because another step waits for it', [step('one', { style: 'read_then_do' }), step('two', { after: ['one'] })]],
  ['entered by one, recorded by either', [step('one', { onePersonOnly: true })]],
  ['a partner check', [step('one', { who: 'partner_check' })]],
];

const BAD: readonly (readonly [string, readonly Step[], RegExp])[] = [
  ['key twice', [step('one'), step('one')], /"one" is used twice/],
  ['key with capitals', [step('One_Step')], /lower-case words joined by hyphens/],
  ['derived from itself', [step('one', { derivedFrom: 'one' })], /derived from itself/],
  ['no title', [step('one', { title: ' ' })], /no title/],
  ['no instruction', [step('one', { instruction: '' })], /no instruction/],
  ['no reason', [step('one', { why: '' })], /does not say why/],
  ['blank caution', [step('one', { caution: ' ', style: 'read_then_do' })], /caution is empty/],
  ['no minutes', [step('one', { minutes: 0 })], /minutes must be more than zero/],
  ['after a stranger', [step('one', { after: ['gone'] })], /"gone", which is not in the book/],
  ['after itself', [step('one', { after: ['one'] })], /come before itself/],
  ['a circle of three', [step('a', { after: ['c'] }), step('b', { after: ['a'] }), step('c', { after: ['b'] })], /"a".*come before itself/],
  ['matches a stranger', [step('one', { evidence: matching })], /must match "first", which is not in the book/],
  ['matches what is no count', [step('first'), step('second', { evidence: matching, after: ['first'] })], /which is not a count/],
  ['matches without coming after', [step('first', { evidence: count }), step('second', { evidence: matching })], /does not come after it/],
  [
    'matches other things',
    [step('first', { evidence: count, per: 'panel' }), step('second', { evidence: matching, after: ['first'] })],
    /done for other things/,
  ],
  ['one person only, partner check', [step('one', { who: 'partner_check', onePersonOnly: true })], /no partner check is possible/],
  ['kit that can hurt, no caution', [step('one', { kit: ['voltage_tester'] })], /takes voltage_tester but carries no caution/],
  ['caution read too late', [step('one', { caution: 'Hot.' })], /must be read before it is done/],
  ['read first for no reason', [step('one', { style: 'read_then_do' })], /neither a caution nor an order/],
  ['duty without a row', [step('one', { basis: { kind: 'duty', rows: [] } })], /names no published row/],
  ['sequence torn apart', [group('a'), step('b'), group('c')], /others between them/],
  ['sequence backward', [group('a', { after: ['b'] }), group('b')], /"a" is listed before a step that it must come after/],
  ['sequence of one', [group('a')], /only one step/],
  ['sequence over different things', [group('a'), group('b', { per: 'panel' })], /different things/],
  [
    'a step in the middle of a sequence',
    [group('a'), group('c', { after: ['b'] }), step('b', { after: ['a'] })],
    /"b" would have to be done in the middle/,
  ],
  ['reading without unit', [step('one', { evidence: { kind: 'reading', unit: '' } })], /no unit/],
  [
    'range upside down',
    [step('one', { evidence: { kind: 'reading', unit: 'F', expectedFrom: 5, expectedTo: 4 } })],
    /ends before it begins/,
  ],
  [
    'difference without names',
    [step('one', { evidence: { kind: 'difference', unit: 'F', firstLabel: '', secondLabel: 'b' } })],
    /both readings need a name/,
  ],
  ['count of nothing', [step('one', { evidence: { kind: 'count', of: ' ' } })], /what is counted/],
  ['choice of one', [step('one', { evidence: { kind: 'choice', options: [{ key: 'a', label: 'A' }] } })], /at least two options/],
  [
    'choice with twins',
    [
      step('one', {
        evidence: {
          kind: 'choice',
          options: [
            { key: 'a', label: 'A' },
            { key: 'a', label: 'B' },
          ],
        },
      }),
    ],
    /same key/,
  ],
  [
    'choice without label',
    [
      step('one', {
        evidence: {
          kind: 'choice',
          options: [
            { key: 'a', label: '' },
            { key: 'b', label: 'B' },
          ],
        },
      }),
    ],
    /no key or no label/,
  ],
  ['note without prompt', [step('one', { evidence: { kind: 'note', prompt: '' } })], /what to write/],
  ['rule over a stranger', [step('one', { applies: { fact: 'features', compare: 'includes', value: 'moat' } })], /moat/],
];

describe('checkRevision', () => {
  it.each(GOOD)('stays quiet: %s', (_name, steps) => expect(checkRevision(steps)).toEqual([]));
  it.each(BAD)('names: %s', (_name, steps, problem) => expect(checkRevision(steps).join('\n')).toMatch(problem));
  it('lets an order point to another procedure, but not share its key', () => {
    expect(checkRevision([step('two', { after: ['one'] })], [step('one')])).toEqual([]);
    expect(checkRevision([step('one')], [step('one')])).toEqual(['The key "one" is used twice.']);
  });
});

describe('siteBudget', () => {
  const context = { facts: { features: [] }, services: [], day: '2026-05-12' };
  it('counts a step once, or once for each item, and not where it does not apply', () => {
    const steps = [
      step('house', { minutes: 3, who: 'partner_check' }),
      step('baths', { minutes: 2, per: 'bathroom', who: 'partner_check' }),
      step('pits', { per: 'deck' }),
      step('attic', { minutes: 50, applies: { fact: 'features', compare: 'includes', value: 'attic' } }),
      step('old', { minutes: 7, applies: { fact: 'yearBuilt', compare: 'below', value: 1974 } }),
    ];
    expect(siteBudget(steps, context, { bathroom: 2 })).toEqual({ entries: 4, minutes: 3 + 2 * 2 + 7, partnerChecks: 3 });
  });
  it('is nothing for an empty book', () => expect(siteBudget([], context, {})).toEqual({ entries: 0, minutes: 0, partnerChecks: 0 }));
});
