// Plain English for one fact: how a comparison reads, and how a number is written with its unit.
import type { Applicability, Comparison } from './applicability.ts';
import { FACTS } from './facts.ts';
import type { FactDefinition, FactKey } from './facts.ts';

export type NumericFactKey = { [K in FactKey]: (typeof FACTS)[K] extends { type: 'number' } ? K : never }[FactKey];

type CompareRule = Extract<Applicability, { fact: FactKey }>;
type Wording = readonly [yes: string, no: string];

const SUBJECTS: Partial<Record<FactKey, Wording>> = {
  kind: ['the building is', 'the building is not'],
  foundationMaterial: ['the foundation walls are', 'the foundation walls are not'],
  roofCovering: ['the roof covering is', 'the roof covering is not'],
  coolingKind: ['the cooling is', 'the cooling is not'],
  waterSource: ['the water comes from', 'the water does not come from'],
  waste: ['the waste water goes to', 'the waste water does not go to'],
  occupied: ['the house is', 'the house is not'],
  foundation: ['the foundation includes', 'the foundation does not include'],
  heatingKind: ['the heating includes', 'the heating does not include'],
  heatingFuel: ['the heating fuel includes', 'the heating fuel does not include'],
};

const YES_NO: Partial<Record<FactKey, Wording>> = {
  waterOn: ['the water is on', 'the water is off'],
  gasOn: ['the gas is on', 'the gas is off'],
  electricityOn: ['the electricity is on', 'the electricity is off'],
  winterized: ['the house is winterized', 'the house is not winterized'],
};

const OPTION_NOUNS: Partial<Record<FactKey, Record<string, string>>> = {
  kind: {
    single_family: 'a single-family house',
    two_to_four_units: 'a house of 2 to 4 units',
    condominium: 'a condominium unit',
    manufactured: 'a manufactured home',
  },
  foundation: { basement: 'a basement', crawl_space: 'a crawl space', slab: 'a slab on grade' },
  foundationMaterial: { other: 'of another kind' },
  roofCovering: { other: 'of another kind' },
  heatingKind: { boiler: 'a boiler', heat_pump: 'a heat pump', stove: 'a stove' },
  coolingKind: { none: 'missing', heat_pump: 'a heat pump' },
  waterSource: { public: 'a public supply', private_well: 'a private well' },
  waste: { public_sewer: 'a public sewer', septic: 'a private septic system' },
};

const YEAR_WORDS: Record<string, (year: string) => string> = {
  atMost: (year) => `built ${year} or earlier`,
  atLeast: (year) => `built ${year} or later`,
  below: (year) => `built before ${year}`,
  above: (year) => `built after ${year}`,
  is: (year) => `built in ${year}`,
};

const SIZE_WORDS: Record<string, (size: string) => string> = {
  atMost: (size) => `${size} or less`,
  atLeast: (size) => `${size} or more`,
  below: (size) => `under ${size}`,
  above: (size) => `over ${size}`,
  is: (size) => `exactly ${size}`,
};

const OPPOSITE: Partial<Record<Comparison, Comparison>> = { atLeast: 'below', below: 'atLeast', atMost: 'above', above: 'atMost' };

const grouped = (value: number): string => value.toLocaleString('en-US');

/** 'a, b or c'. */
export const listed = (words: readonly string[], last: 'and' | 'or'): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;

/** Lower-case label of a fact, for the middle of a sentence: 'living area'. */
export const factName = (fact: FactKey): string => FACTS[fact].label.toLowerCase();

const singular = (plural: string): string => (plural.endsWith('ies') ? `${plural.slice(0, -3)}y` : plural.replace(/s$/, ''));

const counted = (fact: FactKey, value: number): string => `${grouped(value)} ${value === 1 ? singular(factName(fact)) : factName(fact)}`;

/** A number of a fact with its unit or noun: '1,800 sq ft', '2 heating systems', '1925'. */
export const measured = (fact: NumericFactKey, value: number): string => {
  if (fact === 'yearBuilt') return String(value);
  const { unit } = FACTS[fact];
  return unit ? `${grouped(value)} ${unit}` : counted(fact, value);
};

const countPhrase = (fact: NumericFactKey, compare: Comparison, value: number): string => {
  if (value === 0 && (compare === 'is' || compare === 'atMost')) return `no ${factName(fact)}`;
  if ((compare === 'above' && value === 0) || (compare === 'atLeast' && value === 1)) return `at least one ${singular(factName(fact))}`;
  const words = { atLeast: 'at least', atMost: 'at most', above: 'more than', below: 'fewer than', is: 'exactly' }[compare as 'is'];
  return compare === 'atLeast' ? `${grouped(value)} or more ${factName(fact)}` : `${words} ${counted(fact, value)}`;
};

const numberPhrase = (fact: NumericFactKey, asked: Comparison, value: number, negated: boolean): string => {
  const turned = negated ? OPPOSITE[asked] : undefined;
  const compare = turned ?? asked;
  const prefix = negated && !turned ? 'not ' : '';
  if (fact === 'yearBuilt') return prefix + YEAR_WORDS[compare]?.(String(value));
  if (FACTS[fact].unit) return `${factName(fact)} ${prefix}${SIZE_WORDS[compare]?.(measured(fact, value))}`;
  return prefix + countPhrase(fact, compare, value);
};

const isPlural = (noun: string): boolean => noun.endsWith('s');

const featurePhrase = (noun: string, negated: boolean): string => {
  if (isPlural(noun)) return negated ? `there are no ${noun}` : `there are ${noun}`;
  return negated ? `there is no ${noun}` : `there is ${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
};

const optionNoun = (fact: FactKey, definition: { options: Record<string, string> }, option: string): string =>
  OPTION_NOUNS[fact]?.[option] ?? definition.options[option] ?? option;

const optionPhrase = (rule: CompareRule, definition: { label: string; options: Record<string, string> }, negated: boolean): string => {
  if (rule.fact === 'features') return featurePhrase(definition.options[String(rule.value)] ?? String(rule.value), negated);
  if (rule.fact === 'coolingKind' && rule.value === 'none') return negated ? 'there is cooling' : 'there is no cooling';
  const nouns = [rule.value].flat().map((option) => optionNoun(rule.fact, definition, String(option)));
  const label = definition.label.toLowerCase();
  const [yes, no] = SUBJECTS[rule.fact] ?? [`${label} is`, `${label} is not`];
  return `${negated ? no : yes} ${listed(nouns, 'or')}`;
};

/** One comparison in words, or its opposite: 'built 1978 or earlier', 'the foundation does not include a crawl space'. */
export const comparisonInWords = (rule: CompareRule, negated: boolean): string => {
  const definition: FactDefinition = FACTS[rule.fact];
  if (definition.type === 'number') return numberPhrase(rule.fact as NumericFactKey, rule.compare, Number(rule.value), negated);
  if (definition.type !== 'yesNo') return optionPhrase(rule, definition, negated);
  const [yes, no] = YES_NO[rule.fact] ?? [`${factName(rule.fact)}: yes`, `${factName(rule.fact)}: no`];
  return (rule.value === true) === negated ? no : yes;
};
