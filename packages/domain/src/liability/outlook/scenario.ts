// What an owner asks "what if" about, what may be asked, and which figures of the past are enough to answer.
import { accept, refuse, type Outcome } from '../../shared/outcome.ts';

/** Percent are of what is now: 10 is a tenth more. null = as now. `fewer*`: percent by which the step fails less, between the two. */
export type Scenario = {
  feePercent: number;
  jobsPercent: number;
  capCents: number | null;
  deductibleCents: number | null;
  premiumCents: number;
  stepKey: string | null;
  stepMinutes: number;
  fewerLeast: number;
  fewerMost: number;
};

/** Whether it can be asked. `hasPolicy`: a professional liability policy is in force today. */
export function decideScenario(asked: Scenario, hasPolicy: boolean): Outcome<Scenario> {
  if (asked.fewerLeast > asked.fewerMost) return refuse('least-above-most', {}, 'fewerMost');
  if (asked.stepKey === null && (asked.stepMinutes !== 0 || asked.fewerLeast !== 0 || asked.fewerMost !== 0))
    return refuse('outlook-step-missing', {}, 'stepKey');
  if (asked.deductibleCents !== null && !hasPolicy) return refuse('no-policy-in-force', {}, 'deductibleCents');
  return accept(asked);
}

/** Fewest jobs of a year, callbacks, known costs and costs above 0 that are gone by. */
export const ENOUGH = { jobs: 30, callbacks: 5, costs: 10, costing: 12 } as const;
/** A callback's cost counts as known this long after it came in: by then it is mostly paid or set aside. */
export const COSTS_KNOWN_AFTER_DAYS = 180;
/** Newest callbacks whose costs are drawn from. */
export const MOST_COSTS = 400;
/** Runs, and how many callbacks all runs together may draw: a firm that draws more makes fewer runs, and says so. */
export const RUNS = { usual: 10_000, fewest: 1_000, draws: 1_000_000 } as const;

export const runsFor = (expectedCallbacks: number): number =>
  Math.round(Math.max(RUNS.fewest, Math.min(RUNS.usual, RUNS.draws / Math.max(1, expectedCallbacks))));

/** A curve needs some costs above 0 to be fitted to; with fewer, costs are drawn as they were; null: too few for either. */
export function costKind(cents: readonly number[]): 'fitted' | 'resampled' | null {
  if (cents.length < ENOUGH.costs) return null;
  return cents.filter((one) => one > 0).length >= ENOUGH.costing ? 'fitted' : 'resampled';
}

/** A quarter of inspection: jobs, callbacks known, and the factor by which these still grow. */
export type Ripening = { jobs: number; known: number; factorToUltimate: number };

/** Callbacks over the jobs that are ripe for them: a quarter of whose callbacks half are known counts with half of its jobs. */
export const ripe = (quarters: readonly Ripening[]): { counted: number; ripeJobs: number } => ({
  counted: quarters.reduce((sum, { known }) => sum + known, 0),
  ripeJobs: quarters.reduce((sum, { jobs, factorToUltimate }) => sum + jobs / factorToUltimate, 0),
});
