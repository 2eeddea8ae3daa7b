// What the stored shapes accept and refuse: rules of bounded size, facts of the catalogue only.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { applicabilitySchema, propertyFactsSchema } from '@backsight/domain/shared/stored';
import { anyRule, fullFacts } from './rules-arbitrary.ts';

const messages = (schema: z.ZodType, input: unknown): string[] => {
  const result = schema.safeParse(input);
  return result.success ? [] : result.error.issues.map(({ message }) => message);
};

const nested = (depth: number): unknown => (depth === 1 ? { always: true } : { not: nested(depth - 1) });

describe('applicabilitySchema', () => {
  it('keeps any good rule as it is', () => {
    fc.assert(
      fc.property(anyRule, (rule) => {
        expect(applicabilitySchema.parse(rule)).toEqual(rule);
      }),
      { numRuns: 200 },
    );
  });
  it('takes six levels, not seven', () => {
    expect(messages(applicabilitySchema, nested(6))).toEqual([]);
    expect(messages(applicabilitySchema, nested(7))).toEqual(['A rule may be nested at most 6 deep.']);
  });
  it('takes fifty parts, not fifty-one', () => {
    const wide = (parts: number): unknown => ({ any: Array.from({ length: parts - 1 }, () => ({ always: true })) });
    expect(messages(applicabilitySchema, wide(50))).toEqual([]);
    expect(messages(applicabilitySchema, wide(51))).toEqual(['A rule may have at most 50 parts.']);
  });
  it('survives a rule nested a hundred thousand deep', () => {
    let deep: unknown = { always: true };
    for (let at = 0; at < 100_000; at += 1) deep = { all: [deep] };
    expect(messages(applicabilitySchema, deep)).toEqual(['A rule may be nested at most 6 deep.']);
  });
  it.each([
    ['nothing', undefined],
    ['null', null],
    ['text', 'always'],
    ['empty', {}],
    ['always false', { always: false }],
    ['two kinds at once', { always: true, service: 'radon' }],
    ['unknown key', { service: 'radon', extra: 1 }],
    ['empty group', { all: [] }],
    ['unknown fact', { fact: 'color', compare: 'is', value: 'red' }],
    ['unknown comparison', { fact: 'yearBuilt', compare: 'near', value: 1978 }],
    ['bad child', { any: [{ always: true }, 7] }],
    ['infinite', { fact: 'yearBuilt', compare: 'is', value: Infinity }],
  ])('refuses %s', (_name, input) => expect(messages(applicabilitySchema, input).length).toBeGreaterThan(0));
  it('refuses what makes no sense against the catalogue, in words', () => {
    expect(messages(applicabilitySchema, { fact: 'foundation', compare: 'includes', value: 'cellar' })).toEqual([
      'Foundation has no option "cellar".',
    ]);
  });
  it.each(['input', 'output'] as const)('has a finite JSON schema (%s)', (io) => {
    expect(
      JSON.stringify(z.toJSONSchema(z.object({ applies: applicabilitySchema, facts: propertyFactsSchema }), { io })).length,
    ).toBeLessThan(20_000);
  });
});

describe('propertyFactsSchema', () => {
  it('keeps what is known and adds nothing', () => {
    fc.assert(
      fc.property(fullFacts, (facts) => {
        expect(propertyFactsSchema.parse(facts)).toEqual(facts);
      }),
      { numRuns: 100 },
    );
    expect(propertyFactsSchema.parse({})).toEqual({});
  });
  it.each([
    ['half bathrooms', { bathrooms: 2.5 }],
    ['one and a half stories', { stories: 1.5 }],
    ['zero outbuildings', { outbuildings: 0 }],
    ['no foundation of the list', { foundation: [] }],
    ['water off', { waterOn: false }],
  ])('takes %s', (_name, facts) => expect(propertyFactsSchema.parse(facts)).toEqual(facts));
  it.each([
    ['a fact that there is not', { color: 'red' }, []],
    ['year as text', { yearBuilt: '1978' }, ['yearBuilt']],
    ['year before 1700', { yearBuilt: 1066 }, ['yearBuilt']],
    ['half a year', { yearBuilt: 1978.5 }, ['yearBuilt']],
    ['not a number', { livingArea: Number.NaN }, ['livingArea']],
    ['third of a bathroom', { bathrooms: 1.3 }, ['bathrooms']],
    ['unknown option', { waterSource: 'lake' }, ['waterSource']],
    ['option twice', { foundation: ['slab', 'slab'] }, ['foundation']],
    ['option of another fact', { foundation: ['pool'] }, ['foundation', 0]],
    ['null', { gasOn: null }, ['gasOn']],
  ])('refuses %s and names the place', (_name, facts, path) => {
    expect(propertyFactsSchema.safeParse(facts).error?.issues[0]?.path).toEqual(path);
  });
});
