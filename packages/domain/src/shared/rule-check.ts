// Checks an applies-when rule against the catalogue of facts before it is stored.
import type { Applicability, Comparison } from './applicability.ts';
import { FACTS } from './facts.ts';
import type { FactDefinition, FactKey } from './facts.ts';

type CompareRule = Extract<Applicability, { fact: FactKey }>;

const COMPARISONS: Record<FactDefinition['type'], readonly Comparison[]> = {
  number: ['is', 'atLeast', 'atMost', 'below', 'above'],
  choice: ['is', 'isOneOf'],
  set: ['includes'],
  yesNo: ['is'],
};

const COMPARISON_WORDS: Record<Comparison, string> = {
  is: 'is',
  isOneOf: 'is one of',
  atLeast: 'at least',
  atMost: 'at most',
  below: 'below',
  above: 'above',
  includes: 'includes',
};

const definitionOf = (fact: string): FactDefinition | undefined => (Object.hasOwn(FACTS, fact) ? FACTS[fact as FactKey] : undefined);

const checkNumber = (rule: CompareRule, definition: Extract<FactDefinition, { type: 'number' }>): string[] => {
  const { value } = rule;
  if (typeof value !== 'number' || !Number.isFinite(value)) return [`${definition.label} is compared with a number.`];
  const inRange = definition.min <= value && value <= definition.max;
  return inRange ? [] : [`${definition.label} lies between ${definition.min} and ${definition.max}, not ${value}.`];
};

const checkOptions = (rule: CompareRule, definition: Extract<FactDefinition, { options: Record<string, string> }>): string[] => {
  const wantsList = rule.compare === 'isOneOf';
  if (wantsList !== Array.isArray(rule.value)) {
    return [`${definition.label}: "${COMPARISON_WORDS[rule.compare]}" takes ${wantsList ? 'a list of options' : 'one option'}.`];
  }
  const chosen = [rule.value].flat();
  if (chosen.length === 0) return [`${definition.label} needs at least one option.`];
  return chosen
    .filter((option) => typeof option !== 'string' || !Object.hasOwn(definition.options, option))
    .map((option) => `${definition.label} has no option "${option}".`);
};

const checkCompare = (rule: CompareRule): string[] => {
  const definition = definitionOf(rule.fact);
  if (!definition) return [`There is no fact "${rule.fact}".`];
  if (!COMPARISONS[definition.type].includes(rule.compare)) {
    return [`${definition.label} cannot be compared with "${COMPARISON_WORDS[rule.compare] ?? rule.compare}".`];
  }
  if (definition.type === 'number') return checkNumber(rule, definition);
  if (definition.type === 'yesNo') return typeof rule.value === 'boolean' ? [] : [`${definition.label} is yes or no.`];
  return checkOptions(rule, definition);
};

const isDay = (text: string): boolean => {
  const at = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
};

/** 2024 is a leap year, so that a season may end on February 29. */
const checkMonthDay = (text: string): string[] => (isDay(`2024-${text}`) ? [] : [`"${text}" is not a month and day like 05-01.`]);

const checkGroup = (rules: readonly Applicability[], services: readonly string[] | undefined): string[] =>
  rules.length === 0 ? ['A group needs at least one part.'] : rules.flatMap((part) => checkRule(part, services));

/**
 * What is wrong with a rule, one plain sentence each; empty when it may be stored.
 * With `services` (keys of the firm's services) a service that the firm does not have is a problem too.
 */
export function checkRule(rule: Applicability, services?: readonly string[]): string[] {
  if ('always' in rule) return [];
  if ('all' in rule) return checkGroup(rule.all, services);
  if ('any' in rule) return checkGroup(rule.any, services);
  if ('not' in rule) return checkRule(rule.not, services);
  if ('fact' in rule) return checkCompare(rule);
  if ('service' in rule) return services && !services.includes(rule.service) ? [`There is no service "${rule.service}".`] : [];
  if ('seasonFrom' in rule) return [...checkMonthDay(rule.seasonFrom), ...checkMonthDay(rule.seasonTo)];
  return isDay(rule.fromDay) ? [] : [`"${rule.fromDay}" is not a day like 2026-05-01.`];
}
