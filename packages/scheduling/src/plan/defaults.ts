// Weights and budgets to begin with; a firm may change the weights.
import type { PlanBudget, PlanWeights } from './model.ts';

/** Minutes of one person's time. Multiples of 0.05, so that a smaller gap than that is a proof. */
export const PLAN_WEIGHTS: PlanWeights = {
  travel: 1,
  wait: 0.5,
  overtime: 1.5,
  overTarget: 0.25,
  underTarget: 0.1,
  rotation: 12,
  unannounced: 30,
  movedStart: 10,
  movedMinute: 0.1,
  brokenPromise: 300,
  leftOut: 1500,
};

export const PLAN_BUDGET: PlanBudget = {
  routes: 300_000,
  rounds: 400,
  cutRounds: 40,
  columns: 60_000,
  nodes: 5_000,
};
