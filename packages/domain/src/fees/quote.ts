// The fee for one property: every line with its reason, and what was assumed because it is not known yet.
import type { Truth } from '../shared/applicability.ts';
import { evaluate, factsAsked } from '../shared/evaluate.ts';
import type { FactKey } from '../shared/facts.ts';
import { addOnCharge, baseCharge, discountCharge, minimumCharge, perUnitCharge, surcharge, travelCharge } from './charges.ts';
import type { Charge, FeeContext } from './charges.ts';
import { outsideHoursCharge } from './outsideHours.ts';
import type { FeeLine, FeeQuote, FeeRule, FeeSchedule } from './schedule.ts';

type Weighed = { rule: FeeRule; truth: Truth };

const sumOf = (charges: readonly Charge[]): number => charges.reduce((sum, { line }) => sum + (line?.cents ?? 0), 0);

const firstBase = (open: readonly Weighed[]): FeeRule | undefined =>
  (open.find(({ rule, truth }) => rule.kind === 'base' && truth === 'yes') ?? open.find(({ rule }) => rule.kind === 'base'))?.rule;

/** Of several prices for one service that only may apply, the first is counted, and none when another surely applies. */
const countedAddOn = (asked: Weighed, open: readonly Weighed[]): boolean => {
  if (asked.truth === 'yes' || asked.rule.kind !== 'addOn') return true;
  const { service } = asked.rule;
  const prices = open.filter(({ rule }) => rule.kind === 'addOn' && rule.service === service);
  return !prices.some(({ truth }) => truth === 'yes') && prices[0] === asked;
};

const instead = (rule: FeeRule): Charge => ({ note: `"${rule.label}" may take its place once the facts are known.` });

const chargeOf = (weighed: Weighed, open: readonly Weighed[], context: FeeContext): Charge => {
  const { rule, truth } = weighed;
  switch (rule.kind) {
    case 'base': {
      if (rule === firstBase(open)) return baseCharge(rule, truth, context);
      return truth === 'unknown' ? instead(rule) : {};
    }
    case 'perUnitOver':
      return perUnitCharge(rule, truth, context);
    case 'surcharge':
      return surcharge(rule, truth, context);
    case 'addOn': {
      if (!context.services.includes(rule.service)) return {};
      return countedAddOn(weighed, open) ? addOnCharge(rule, truth, context) : instead(rule);
    }
    case 'travelBand':
      return travelCharge(rule, truth, context);
    case 'outsideHours':
      return outsideHoursCharge(rule, truth, context);
    case 'discount':
    case 'minimum':
      return {};
  }
};

const discounts = (open: readonly Weighed[], context: FeeContext, charges: number): Charge[] => {
  const given: Charge[] = [];
  for (const { rule, truth } of open) {
    if (rule.kind === 'discount') given.push(discountCharge(rule, truth, context, charges, charges + sumOf(given)));
  }
  return given;
};

const minimums = (open: readonly Weighed[], context: FeeContext, sum: number): Charge[] => {
  const lifted: Charge[] = [];
  for (const { rule, truth } of open) {
    if (rule.kind === 'minimum') lifted.push(minimumCharge(rule, truth, context, sum + sumOf(lifted)));
  }
  return lifted;
};

const numericFact = (rule: FeeRule, context: FeeContext): FactKey[] => {
  const fact = rule.kind === 'base' ? 'livingArea' : rule.kind === 'perUnitOver' ? rule.fact : undefined;
  return fact !== undefined && context.facts[fact] === undefined ? [fact] : [];
};

const matters = (rule: FeeRule, context: FeeContext): boolean => rule.kind !== 'addOn' || context.services.includes(rule.service);

const askedBy = (open: readonly Weighed[], context: FeeContext): FactKey[] => {
  const rules = open.map(({ rule }) => rule).filter((rule) => matters(rule, context));
  return [...new Set(rules.flatMap((rule) => [...factsAsked(rule.applies, context), ...numericFact(rule, context)]))];
};

/**
 * Prices a job by a schedule. Charges come in the order of the schedule, then discounts (of the charges before any
 * discount, the sum never below zero), then the minimum; `totalCents` is the sum of the lines. What is not known yet is
 * never silently priced: `assumptions` says in sentences what was taken or left out, `asks` names the facts to ask for.
 */
export function quoteFee(schedule: FeeSchedule, context: FeeContext): FeeQuote {
  const open = schedule.rules.map((rule) => ({ rule, truth: evaluate(rule.applies, context) })).filter(({ truth }) => truth !== 'no');
  const charges = open.map((weighed) => chargeOf(weighed, open, context));
  const off = discounts(open, context, sumOf(charges));
  const before = [...charges, ...off];
  const all = [...before, ...minimums(open, context, sumOf(before))];
  const lines = all.flatMap(({ line }): FeeLine[] => (line ? [line] : []));
  const assumptions = all
    .flatMap(({ line, note }) => [line?.assumption ? `${line.label}: ${line.assumption}` : undefined, note])
    .filter((text) => text !== undefined);
  return { lines, totalCents: sumOf(all), assumptions, asks: askedBy(open, context) };
}

/** Ordered services that no rule of the schedule prices; the base service is priced by the base rules. */
export const unpricedServices = (schedule: FeeSchedule, services: readonly string[], baseService: string): string[] =>
  services.filter(
    (service) => service !== baseService && !schedule.rules.some((rule) => rule.kind === 'addOn' && rule.service === service),
  );
