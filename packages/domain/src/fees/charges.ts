// What one rule of a fee schedule charges for one property: a line, or a note of what it may still add.
import type { Truth } from '../shared/applicability.ts';
import { inWords } from '../shared/english.ts';
import { factsAsked } from '../shared/evaluate.ts';
import type { NamedContext } from '../shared/evaluate.ts';
import { formatUsd, percentOf, shortUsd } from '../shared/money.ts';
import { factName, listed, measured } from '../shared/phrases.ts';
import type { NumericFactKey } from '../shared/phrases.ts';
import type { FeeLine, FeeRule } from './schedule.ts';

/** `travelMinutes` is one way to the property; null = not known yet. `startMinute` of the local day of `day`; null or left out = no start is chosen yet. */
export type FeeContext = NamedContext & { travelMinutes: number | null; startMinute?: number | null };

/** What a rule comes to: a line, a note for the caller, or neither. */
export type Charge = { line?: FeeLine; note?: string };

type Rule<K extends FeeRule['kind']> = Extract<FeeRule, { kind: K }>;

const line = (rule: FeeRule, reason: string, cents: number, assumption?: string): FeeLine => ({
  rule: rule.key,
  label: rule.label,
  reason,
  cents,
  ...(assumption === undefined ? {} : { assumption }),
});

/** The rule in words, as a condition; nothing for a rule that always applies. */
const condition = (rule: FeeRule, context: FeeContext): string =>
  'always' in rule.applies ? '' : ` if ${inWords(rule.applies, context.serviceNames)}`;

const openRule = (rule: FeeRule, truth: Truth, context: FeeContext): string | undefined =>
  truth === 'unknown' ? `Counted until known: ${listed(factsAsked(rule.applies, context).map(factName), 'and')}.` : undefined;

const together = (...sentences: (string | undefined)[]): string | undefined => sentences.filter(Boolean).join(' ') || undefined;

const taken = (fact: NumericFactKey, value: number): string => `Taken until known: ${factName(fact)} ${measured(fact, value)}.`;

/** The base fee; a base that only may apply is charged with an assumption, since every job has one. */
export const baseCharge = (rule: Rule<'base'>, truth: Truth, context: FeeContext): Charge => {
  const known = context.facts.livingArea;
  const size = known ?? rule.assume;
  const band = rule.bands.find(({ upToSqFt }) => upToSqFt === null || size <= upToSqFt) ?? rule.bands.at(-1);
  const assumption = together(openRule(rule, truth, context), known === undefined ? taken('livingArea', size) : undefined);
  return { line: line(rule, `living area ${measured('livingArea', size)}`, band?.cents ?? 0, assumption) };
};

const stepWords = (rule: Rule<'perUnitOver'>): string => {
  const each = rule.step === 1 ? 'one' : measured(rule.fact, rule.step);
  return `each ${each} over ${measured(rule.fact, rule.over)}`;
};

/** Started steps count whole (common practice: "+$50 per 500 sq ft"). */
export const perUnitCharge = (rule: Rule<'perUnitOver'>, truth: Truth, context: FeeContext): Charge => {
  const known = context.facts[rule.fact];
  const value = known ?? rule.assume;
  if (truth === 'unknown' || value === undefined) {
    if (value !== undefined && value <= rule.over) return {};
    return { note: `${rule.label} may add ${shortUsd(rule.cents)} for ${stepWords(rule)}${condition(rule, context)}.` };
  }
  const steps = Math.max(0, Math.ceil((value - rule.over) / rule.step));
  const assumption = known === undefined ? taken(rule.fact, value) : undefined;
  if (steps === 0) return assumption ? { note: `${rule.label}: ${assumption}` } : {};
  const reason = `${measured(rule.fact, value)}: ${steps} x ${shortUsd(rule.cents)} for ${stepWords(rule)}`;
  return { line: line(rule, reason, steps * rule.cents, assumption) };
};

/** A surcharge that only may apply is not charged, but said. */
export const surcharge = (rule: Rule<'surcharge'>, truth: Truth, context: FeeContext): Charge =>
  truth === 'yes'
    ? { line: line(rule, inWords(rule.applies, context.serviceNames), rule.cents) }
    : { note: `${rule.label} may add ${shortUsd(rule.cents)}${condition(rule, context)}.` };

/** An ordered service is charged even while its rule is open: the client asked for it. */
export const addOnCharge = (rule: Rule<'addOn'>, truth: Truth, context: FeeContext): Charge => {
  const onlyOrdered = 'service' in rule.applies && rule.applies.service === rule.service;
  const words = 'always' in rule.applies || onlyOrdered ? '' : `, ${inWords(rule.applies, context.serviceNames)}`;
  return { line: line(rule, `ordered${words}`, rule.cents, openRule(rule, truth, context)) };
};

/** Travel; unknown travel or an open rule is not charged, but its most is said. */
export const travelCharge = (rule: Rule<'travelBand'>, truth: Truth, context: FeeContext): Charge => {
  const minutes = context.travelMinutes;
  const most = Math.max(0, ...rule.bands.map(({ cents }) => cents));
  if (minutes === null || truth === 'unknown') {
    return most === 0 ? {} : { note: `${rule.label} may add up to ${shortUsd(most)}${condition(rule, context)}.` };
  }
  const band = rule.bands.find(({ upToMinutes }) => upToMinutes === null || minutes <= upToMinutes) ?? rule.bands.at(-1);
  return band && band.cents > 0 ? { line: line(rule, `${Math.round(minutes)} minutes of travel one way`, band.cents) } : {};
};

/** A discount of the charges so far, never more than `left` cents. A discount that only may apply is not given, but said. */
export const discountCharge = (rule: Rule<'discount'>, truth: Truth, context: FeeContext, chargesCents: number, left: number): Charge => {
  const byPercent = 'percent' in rule;
  const off = byPercent ? percentOf(chargesCents, rule.percent, 'halfUp') : rule.cents;
  if (truth === 'unknown') {
    return { note: `${rule.label} may take off ${byPercent ? `${rule.percent}%` : shortUsd(off)}${condition(rule, context)}.` };
  }
  const given = Math.min(off, left);
  const share = byPercent ? `, ${rule.percent}% of ${formatUsd(chargesCents)}` : '';
  return given > 0 ? { line: line(rule, rule.reason + share, -given) } : {};
};

/** Lifts the sum to the least fee. */
export const minimumCharge = (rule: Rule<'minimum'>, truth: Truth, context: FeeContext, sum: number): Charge => {
  if (sum >= rule.cents) return {};
  if (truth === 'unknown') return { note: `${rule.label}: the fee is at least ${shortUsd(rule.cents)}${condition(rule, context)}.` };
  return { line: line(rule, `the least fee is ${shortUsd(rule.cents)}`, rule.cents - sum) };
};
