// What a procedure book asks of a pair at one house: steps, site minutes and partner checks.
import { evaluate } from '../shared/evaluate.ts';
import type { RuleContext } from '../shared/evaluate.ts';
import type { ItemKind } from '../shared/facts.ts';
import type { Step } from './step.ts';

/** How many of each kind there are at the house; a kind left out counts as none. */
export type ItemCounts = { readonly [K in ItemKind]?: number };

/** `minutes`: planned site minutes of the pair; a minute is one in which both are at work, on this step or another. */
export type SiteBudget = { entries: number; minutes: number; partnerChecks: number };

/** How often the step is done at the house: once, or once for each item of its kind. An unknown fact makes a step apply. */
export const timesDone = (step: Step, context: RuleContext, items: ItemCounts): number => {
  if (evaluate(step.applies, context) === 'no') return 0;
  return step.per === 'property' ? 1 : (items[step.per] ?? 0);
};

/** Sums over all times that the steps are done at the house. */
export const siteBudget = (steps: readonly Step[], context: RuleContext, items: ItemCounts): SiteBudget => {
  const done = steps.map((step) => ({ step, times: timesDone(step, context, items) }));
  const sum = (of: (step: Step) => number): number => done.reduce((total, { step, times }) => total + times * of(step), 0);
  return {
    entries: sum(() => 1),
    minutes: sum((step) => step.minutes),
    partnerChecks: sum((step) => (step.who === 'partner_check' ? 1 : 0)),
  };
};
