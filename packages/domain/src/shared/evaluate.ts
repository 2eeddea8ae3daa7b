// Decides whether an applies-when rule holds, and which unknown facts stand in the way.
// Three-valued after Kleene ("Introduction to Metamathematics", 1952, section 64): what is unknown stays unknown
// unless the rest decides alone.
import type { Applicability, Comparison, Truth } from './applicability.ts';
import type { FactKey, PropertyFacts } from './facts.ts';

/** What a rule is held against: known facts, keys of the ordered services, and the day of the visit ('YYYY-MM-DD'). */
export type RuleContext = { facts: PropertyFacts; services: readonly string[]; day: string };

/** A context whose services have names, for reasons in plain words; a service without a name shows its key. */
export type NamedContext = RuleContext & { serviceNames?: Readonly<Record<string, string>> };

type CompareRule = Extract<Applicability, { fact: FactKey }>;

const COMPARE: Record<Comparison, (known: unknown, value: CompareRule['value']) => boolean> = {
  is: (known, value) => known === value,
  isOneOf: (known, value) => (value as readonly unknown[]).includes(known),
  includes: (known, value) => (known as readonly unknown[]).includes(value),
  atLeast: (known, value) => (known as number) >= (value as number),
  atMost: (known, value) => (known as number) <= (value as number),
  below: (known, value) => (known as number) < (value as number),
  above: (known, value) => (known as number) > (value as number),
};

const truth = (holds: boolean): Truth => (holds ? 'yes' : 'no');

const FLIPPED: Record<Truth, Truth> = { yes: 'no', no: 'yes', unknown: 'unknown' };

const compare = (rule: CompareRule, facts: PropertyFacts): Truth => {
  const known = facts[rule.fact];
  return known === undefined ? 'unknown' : truth(COMPARE[rule.compare](known, rule.value));
};

const inSeason = (day: string, from: string, to: string): boolean => {
  const monthDay = day.slice(5);
  return from <= to ? from <= monthDay && monthDay <= to : monthDay >= from || monthDay <= to;
};

const combine = (rules: readonly Applicability[], context: RuleContext, decisive: Truth): Truth => {
  const answers = rules.map((rule) => evaluate(rule, context));
  if (answers.includes(decisive)) return decisive;
  return answers.includes('unknown') ? 'unknown' : FLIPPED[decisive];
};

/**
 * Whether the rule holds. 'unknown' means that a fact which is not known yet could decide it either way.
 * The rule must have passed `checkRule`; an empty `all` is 'yes', an empty `any` is 'no'.
 */
export function evaluate(rule: Applicability, context: RuleContext): Truth {
  if ('always' in rule) return 'yes';
  if ('all' in rule) return combine(rule.all, context, 'no');
  if ('any' in rule) return combine(rule.any, context, 'yes');
  if ('not' in rule) return FLIPPED[evaluate(rule.not, context)];
  if ('fact' in rule) return compare(rule, context.facts);
  if ('service' in rule) return truth(context.services.includes(rule.service));
  if ('seasonFrom' in rule) return truth(inSeason(context.day, rule.seasonFrom, rule.seasonTo));
  return truth(context.day >= rule.fromDay);
}

const undecided = (rule: Applicability, context: RuleContext): FactKey[] => {
  if (evaluate(rule, context) !== 'unknown') return [];
  if ('fact' in rule) return [rule.fact];
  if ('not' in rule) return undecided(rule.not, context);
  if ('all' in rule) return rule.all.flatMap((part) => undecided(part, context));
  if ('any' in rule) return rule.any.flatMap((part) => undecided(part, context));
  return [];
};

/** Unknown facts that could still change the answer, each once, in the order of the rule; empty when the rule is decided. */
export const factsAsked = (rule: Applicability, context: RuleContext): FactKey[] => [...new Set(undecided(rule, context))];
