// How long a visit is planned to take, line by line with the reason of each.
import type { Applicability } from '../shared/applicability.ts';
import { inWords } from '../shared/english.ts';
import { evaluate, factsAsked } from '../shared/evaluate.ts';
import type { NamedContext } from '../shared/evaluate.ts';
import type { FactKey } from '../shared/facts.ts';
import { factName, listed, measured } from '../shared/phrases.ts';
import type { NumericFactKey } from '../shared/phrases.ts';

/**
 * `minutes` for each `per` of a fact: started parts count whole with `roundUp`, else in proportion.
 * `assume` is used while the fact is not known.
 */
export type MinutesPerFact = { fact: NumericFactKey; per: number; minutes: number; roundUp: boolean; assume?: number };

/**
 * Elapsed minutes of the pair on site; with `report` they are writing time of one person after the visit, with `walkThrough`
 * they are the end of the visit, at which the client is shown what was found.
 */
export type DurationRule = {
  key: string;
  label: string;
  applies: Applicability;
  minutes: number | MinutesPerFact;
  report?: boolean;
  walkThrough?: boolean;
};

export type DurationLine = { rule: string; label: string; minutes: number; reason: string; assumption?: string; report?: true };

/**
 * `minutes` on site and `reportMinutes` afterwards, both rounded up to quarter hours; the last `walkThroughMinutes` on site
 * are the client's. `asks` names the facts that could change them.
 */
export type DurationEstimate = {
  minutes: number;
  reportMinutes: number;
  walkThroughMinutes: number;
  lines: DurationLine[];
  asks: FactKey[];
};

const QUARTER = 15;

const roundedUp = (minutes: number): number => Math.ceil(minutes / QUARTER) * QUARTER;

type Counted = { minutes: number; words?: string; assumption?: string };

/** Multiplies before it divides: 60 minutes per 1,000 sq ft at 4,150 sq ft must come to 249, not to a hair above. */
const minutesFor = ({ per, minutes, roundUp }: MinutesPerFact, value: number): number =>
  roundUp ? Math.ceil(value / per) * minutes : Math.ceil((value * minutes) / per);

const counted = (rule: DurationRule, context: NamedContext): Counted => {
  const { minutes } = rule;
  if (typeof minutes === 'number') return { minutes };
  const known = context.facts[minutes.fact];
  const value = known ?? minutes.assume;
  const name = factName(minutes.fact);
  if (value === undefined) return { minutes: 0, words: `${name} not known yet`, assumption: `Not counted until known: ${name}.` };
  const words = `${minutes.minutes} minutes for each ${measured(minutes.fact, minutes.per)}, ${measured(minutes.fact, value)}`;
  const assumption = known === undefined ? { assumption: `Taken until known: ${name} ${measured(minutes.fact, value)}.` } : {};
  return { minutes: minutesFor(minutes, value), words, ...assumption };
};

/** An open rule counts: a visit planned too short is worse than one planned too long. */
const lineOf = (rule: DurationRule, context: NamedContext): DurationLine[] => {
  const truth = evaluate(rule.applies, context);
  if (truth === 'no') return [];
  const { minutes, words, assumption } = counted(rule, context);
  const applies = inWords(rule.applies, context.serviceNames);
  const assumed = [
    truth === 'unknown' ? `Counted until known: ${listed(factsAsked(rule.applies, context).map(factName), 'and')}.` : undefined,
    assumption,
  ]
    .filter(Boolean)
    .join(' ');
  const reason = words === undefined ? applies : 'always' in rule.applies ? words : `${applies}; ${words}`;
  const line: DurationLine = { rule: rule.key, label: rule.label, minutes, reason };
  if (assumed) line.assumption = assumed;
  if (rule.report) line.report = true;
  return [line];
};

const asksOf = (rule: DurationRule, context: NamedContext): FactKey[] => {
  if (evaluate(rule.applies, context) === 'no') return [];
  const open = typeof rule.minutes === 'number' || context.facts[rule.minutes.fact] !== undefined ? [] : [rule.minutes.fact];
  return [...factsAsked(rule.applies, context), ...open];
};

const total = (lines: readonly DurationLine[]): number => roundedUp(lines.reduce((sum, { minutes }) => sum + minutes, 0));

/** Adds up the rules that apply or may apply. Lines are in the order of the rules and unrounded in sum. */
export function estimateDuration(rules: readonly DurationRule[], context: NamedContext): DurationEstimate {
  const lines = rules.flatMap((rule) => lineOf(rule, context));
  const ofClient = new Set(rules.filter(({ walkThrough }) => walkThrough).map(({ key }) => key));
  return {
    minutes: total(lines.filter(({ report }) => !report)),
    reportMinutes: total(lines.filter(({ report }) => report)),
    walkThroughMinutes: lines.filter(({ rule }) => ofClient.has(rule)).reduce((sum, { minutes }) => sum + minutes, 0),
    lines,
    asks: [...new Set(rules.flatMap((rule) => asksOf(rule, context)))],
  };
}
