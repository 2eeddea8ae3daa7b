// Three-valued rules: tables for every kind of condition, Kleene's laws, and learning a fact never flips an answer.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Applicability, Truth } from '@backsight/domain/shared/applicability';
import { evaluate, factsAsked } from '@backsight/domain/shared/evaluate';
import type { RuleContext } from '@backsight/domain/shared/evaluate';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { FACTS_USED, anyDay, anyRule, anyServices, fullFacts, pick, someFacts } from './rules-arbitrary.ts';

const at = (facts: PropertyFacts = {}, services: string[] = [], day = '2026-07-15'): RuleContext => ({ facts, services, day });

const old: Applicability = { fact: 'yearBuilt', compare: 'atMost', value: 1978 };
const crawl: Applicability = { fact: 'foundation', compare: 'includes', value: 'crawl_space' };

describe('one condition', () => {
  const year = (compare: 'is' | 'atLeast' | 'atMost' | 'below' | 'above'): Applicability => ({ fact: 'yearBuilt', compare, value: 1978 });
  const rows: [string, Applicability, RuleContext, Truth][] = [
    ['always', { always: true }, at(), 'yes'],
    ['at most, equal', year('atMost'), at({ yearBuilt: 1978 }), 'yes'],
    ['at most, above', year('atMost'), at({ yearBuilt: 1979 }), 'no'],
    ['at least, equal', year('atLeast'), at({ yearBuilt: 1978 }), 'yes'],
    ['at least, below', year('atLeast'), at({ yearBuilt: 1977 }), 'no'],
    ['below, equal', year('below'), at({ yearBuilt: 1978 }), 'no'],
    ['below, below', year('below'), at({ yearBuilt: 1977 }), 'yes'],
    ['above, equal', year('above'), at({ yearBuilt: 1978 }), 'no'],
    ['above, above', year('above'), at({ yearBuilt: 1979 }), 'yes'],
    ['is', year('is'), at({ yearBuilt: 1978 }), 'yes'],
    ['number not known', year('is'), at(), 'unknown'],
    ['zero is known', { fact: 'outbuildings', compare: 'atLeast', value: 1 }, at({ outbuildings: 0 }), 'no'],
    ['choice', { fact: 'waterSource', compare: 'is', value: 'private_well' }, at({ waterSource: 'private_well' }), 'yes'],
    ['another choice', { fact: 'waterSource', compare: 'is', value: 'private_well' }, at({ waterSource: 'public' }), 'no'],
    ['one of', { fact: 'roofCovering', compare: 'isOneOf', value: ['slate', 'tile'] }, at({ roofCovering: 'tile' }), 'yes'],
    ['none of', { fact: 'roofCovering', compare: 'isOneOf', value: ['slate', 'tile'] }, at({ roofCovering: 'asphalt' }), 'no'],
    ['set includes', crawl, at({ foundation: ['basement', 'crawl_space'] }), 'yes'],
    ['set does not include', crawl, at({ foundation: ['basement'] }), 'no'],
    ['an empty set is known', crawl, at({ foundation: [] }), 'no'],
    ['set not known', crawl, at(), 'unknown'],
    ['false is known', { fact: 'waterOn', compare: 'is', value: true }, at({ waterOn: false }), 'no'],
    ['yes or no', { fact: 'waterOn', compare: 'is', value: false }, at({ waterOn: false }), 'yes'],
    ['service ordered', { service: 'radon' }, at({}, ['radon']), 'yes'],
    ['service not ordered', { service: 'radon' }, at({}, ['pool']), 'no'],
    ['first day of the season', { seasonFrom: '05-01', seasonTo: '10-15' }, at({}, [], '2026-05-01'), 'yes'],
    ['last day of the season', { seasonFrom: '05-01', seasonTo: '10-15' }, at({}, [], '2026-10-15'), 'yes'],
    ['day after the season', { seasonFrom: '05-01', seasonTo: '10-15' }, at({}, [], '2026-10-16'), 'no'],
    ['winter in December', { seasonFrom: '11-15', seasonTo: '03-31' }, at({}, [], '2026-12-24'), 'yes'],
    ['winter in January', { seasonFrom: '11-15', seasonTo: '03-31' }, at({}, [], '2027-01-10'), 'yes'],
    ['not winter', { seasonFrom: '11-15', seasonTo: '03-31' }, at({}, [], '2026-07-10'), 'no'],
    ['from that day', { fromDay: '2026-07-15' }, at(), 'yes'],
    ['before that day', { fromDay: '2026-07-16' }, at(), 'no'],
  ];
  it.each(rows)('%s', (_name, rule, context, expected) => expect(evaluate(rule, context)).toBe(expected));
});

describe("Kleene's strong three-valued tables (Introduction to Metamathematics, 1952, section 64)", () => {
  const facts: PropertyFacts = { yearBuilt: 1950, gasOn: false };
  const having: Record<Truth, Applicability> = { yes: old, no: { fact: 'gasOn', compare: 'is', value: true }, unknown: crawl };
  const rows: [Truth, Truth, Truth, Truth][] = [
    ['yes', 'yes', 'yes', 'yes'],
    ['yes', 'unknown', 'unknown', 'yes'],
    ['yes', 'no', 'no', 'yes'],
    ['unknown', 'yes', 'unknown', 'yes'],
    ['unknown', 'unknown', 'unknown', 'unknown'],
    ['unknown', 'no', 'no', 'unknown'],
    ['no', 'yes', 'no', 'yes'],
    ['no', 'unknown', 'no', 'unknown'],
    ['no', 'no', 'no', 'no'],
  ];
  it.each(rows)('%s with %s: all %s, any %s', (a, b, all, any) => {
    expect(evaluate({ all: [having[a], having[b]] }, at(facts))).toBe(all);
    expect(evaluate({ any: [having[a], having[b]] }, at(facts))).toBe(any);
  });
  it.each([
    ['yes', 'no'],
    ['no', 'yes'],
    ['unknown', 'unknown'],
  ] as [Truth, Truth][])('not %s is %s', (a, expected) => expect(evaluate({ not: having[a] }, at(facts))).toBe(expected));
  it('takes an empty "all" as yes and an empty "any" as no', () => {
    expect([evaluate({ all: [] }, at()), evaluate({ any: [] }, at())]).toEqual(['yes', 'no']);
  });
});

describe('laws', () => {
  const contexts = fc
    .tuple(fullFacts, someFacts, anyServices, anyDay)
    .map(([facts, known, services, day]) => ({ facts: pick(facts, known), services, day }));
  const same = (a: Applicability, b: Applicability, context: RuleContext): void => expect(evaluate(a, context)).toBe(evaluate(b, context));

  it('De Morgan, double negation, commutativity, associativity, idempotence, absorption, distribution', () => {
    fc.assert(
      fc.property(anyRule, anyRule, anyRule, contexts, (a, b, c, context) => {
        same({ not: { all: [a, b] } }, { any: [{ not: a }, { not: b }] }, context);
        same({ not: { any: [a, b] } }, { all: [{ not: a }, { not: b }] }, context);
        same({ not: { not: a } }, a, context);
        same({ all: [a, b] }, { all: [b, a] }, context);
        same({ any: [a, { any: [b, c] }] }, { any: [a, b, c] }, context);
        same({ all: [a, a] }, a, context);
        same({ all: [a, { any: [a, b] }] }, a, context);
        same({ all: [a, { any: [b, c] }] }, { any: [{ all: [a, b] }, { all: [a, c] }] }, context);
      }),
      { numRuns: 300 },
    );
  });

  it('a decided answer never flips when more becomes known, and nothing is unknown when all is known', () => {
    fc.assert(
      fc.property(anyRule, fullFacts, someFacts, anyServices, anyDay, (rule, facts, known, services, day) => {
        const before = evaluate(rule, { facts: pick(facts, known), services, day });
        const after = evaluate(rule, { facts, services, day });
        expect(after).not.toBe('unknown');
        if (before !== 'unknown') expect(after).toBe(before);
      }),
      { numRuns: 500 },
    );
  });

  it('asks for facts exactly while the answer is open; only unknown ones; knowing them decides', () => {
    fc.assert(
      fc.property(anyRule, fullFacts, someFacts, anyServices, anyDay, (rule, facts, known, services, day) => {
        const context = { facts: pick(facts, known), services, day };
        const asked = factsAsked(rule, context);
        expect(asked.length > 0).toBe(evaluate(rule, context) === 'unknown');
        expect(asked.filter((fact) => known.includes(fact))).toEqual([]);
        const learned = { ...context, facts: pick(facts, [...known, ...asked]) };
        expect(evaluate(rule, learned)).toBe(evaluate(rule, { ...context, facts: pick(facts, FACTS_USED) }));
      }),
      { numRuns: 500 },
    );
  });
});

describe('facts asked', () => {
  it('names each once, in the order of the rule', () => {
    expect(factsAsked({ all: [crawl, { any: [old, { not: crawl }] }] }, at())).toEqual(['foundation', 'yearBuilt']);
  });
  it('leaves out a fact that cannot matter any more', () => {
    expect(factsAsked({ all: [old, { any: [crawl, { fact: 'waterOn', compare: 'is', value: true }] }] }, at({ waterOn: true }))).toEqual([
      'yearBuilt',
    ]);
  });
  it('asks nothing when the rest decides', () => {
    expect(factsAsked({ any: [old, crawl] }, at({ yearBuilt: 1920 }))).toEqual([]);
  });
});
