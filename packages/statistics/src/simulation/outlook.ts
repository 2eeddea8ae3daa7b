// What jobs of the next years may bring, as things are and after a change, run by run with the same chance for both.
import { requireCount, requirePositive } from '../interval.ts';
import { costDraws, type CostModel } from './costs.ts';
import { drawBeta, drawGamma, drawPoisson, seeded, type Random } from './random.ts';

/** What the firm's past says. */
export type OutlookBasis = {
  /** Jobs of the year whose weeks are repeated. */
  jobsOfYear: number;
  years: number;
  /** Mean fee of a job. */
  feeCents: number;
  /** Minutes of a pair for a job. */
  minutesPerJob: number;
  /** Callbacks counted, over jobs as far as these have ripened; null: too few to go by. */
  callbacks: { counted: number; ripeJobs: number } | null;
  /** null: too few to go by. */
  costs: CostModel | null;
  /** The step that the change is about: how many of the callbacks counted were traced to it, and how often it applies on a job. */
  step: { traced: number; timesPerJob: number } | null;
};

/** Cents; null = none. `deductibleCents` null: no policy pays. */
export type OutlookTerms = { capCents: number | null; deductibleCents: number | null; limitCents: number | null };

/** Shares: 0.1 is a tenth more. `fewer`: by how much less the step fails, anywhere evenly between the two; below 0 it fails more. */
export type OutlookChange = OutlookTerms & {
  feeShare: number;
  jobsShare: number;
  /** More (or, below 0, less) to pay for insurance in a year. */
  premiumCents: number;
  stepMinutes: number;
  fewer: { least: number; most: number };
};

export const OUTLOOK_MEASURES = ['jobs', 'income', 'callbacks', 'cost', 'byFirm', 'byInsurer', 'left', 'hours'] as const;
export type OutlookMeasure = (typeof OUTLOOK_MEASURES)[number];

/** Mean, and the limits between which 90 of 100 runs lie. */
export type Spread = { mean: number; lower: number; upper: number };
export type OutlookFigures = Record<OutlookMeasure, { now: Spread; changed: Spread; difference: Spread }>;

type Runs = Record<OutlookMeasure, { now: Float64Array; changed: Float64Array }>;

/**
 * Jobs ~ Poisson with a gamma mean (shape jobs + 1/2), callbacks ~ Poisson with a gamma rate (shape counted + 1/2 over ripe jobs):
 * Jeffreys' prior, so that both are negative binomial (M. Greenwood & G. U. Yule, J. Royal Statistical Society 83 (1920) 255-279);
 * money is the sum of the costs of as many callbacks (compound distribution). The changed side is made of the same jobs, callbacks
 * and costs, so that a difference is what the change does and not what chance does. Jobs and callbacks are counts, money is in cents,
 * hours are hours of pairs; `left` is income less what the firm pays and what insurance costs more.
 * @throws RangeError on broken counts, or on money without callbacks
 */
export function simulateOutlook(
  basis: OutlookBasis,
  now: OutlookTerms,
  change: OutlookChange,
  { seed, runs }: { seed: number; runs: number },
): OutlookFigures {
  requireCount('jobs of the year', basis.jobsOfYear);
  requirePositive('runs', runs);
  if (basis.callbacks) requirePositive('ripe jobs', basis.callbacks.ripeJobs);
  const random = seeded(seed);
  const empty = () => ({ now: new Float64Array(runs), changed: new Float64Array(runs) });
  const found = Object.fromEntries(OUTLOOK_MEASURES.map((measure) => [measure, empty()])) as Runs;
  const costs = basis.costs ? costDraws(random, basis.costs) : { begin: () => {}, draw: () => 0 };
  for (let run = 0; run < runs; run++) {
    const jobs = drawPoisson(random, drawGamma(random, basis.jobsOfYear + 0.5) * basis.years);
    const changedJobs = Math.round(jobs * (1 + change.jobsShare));
    costs.begin();
    const brought = broughtBy({ random, basis, now, change, jobs, changedJobs, draw: costs.draw });
    put(found, run, 'now', workOf(basis, jobs, { feeShare: 0, stepMinutes: 0 }), brought.now, 0);
    put(found, run, 'changed', workOf(basis, changedJobs, change), brought.changed, change.premiumCents * basis.years);
  }
  return Object.fromEntries(OUTLOOK_MEASURES.map((measure) => [measure, spreads(found[measure])])) as OutlookFigures;
}

type Brought = { callbacks: number; firm: number; insurer: number };
type Work = { jobs: number; income: number; hours: number };

const workOf = (basis: OutlookBasis, jobs: number, { feeShare, stepMinutes }: { feeShare: number; stepMinutes: number }): Work => ({
  jobs,
  income: jobs * basis.feeCents * (1 + feeShare),
  hours: (jobs * (basis.minutesPerJob + stepMinutes * (basis.step?.timesPerJob ?? 0))) / 60,
});

function put(found: Runs, run: number, side: 'now' | 'changed', work: Work, brought: Brought, premium: number): void {
  found.jobs[side][run] = work.jobs;
  found.income[side][run] = work.income;
  found.hours[side][run] = work.hours;
  found.callbacks[side][run] = brought.callbacks;
  found.byFirm[side][run] = brought.firm;
  found.byInsurer[side][run] = brought.insurer;
  found.cost[side][run] = brought.firm + brought.insurer;
  found.left[side][run] = work.income - brought.firm - premium;
}

type RunOf = {
  random: Random;
  basis: OutlookBasis;
  now: OutlookTerms;
  change: OutlookChange;
  jobs: number;
  changedJobs: number;
  draw: () => number;
};

/** Callbacks of one run, and who pays them, on both sides. */
function broughtBy({ random, basis, now, change, jobs, changedJobs, draw }: RunOf): { now: Brought; changed: Brought } {
  const sides = { now: { callbacks: 0, firm: 0, insurer: 0 }, changed: { callbacks: 0, firm: 0, insurer: 0 } };
  if (!basis.callbacks) return sides;
  const rate = drawGamma(random, basis.callbacks.counted + 0.5) / basis.callbacks.ripeJobs;
  const count = drawPoisson(random, rate * jobs);
  const further = changedJobs > jobs ? drawPoisson(random, rate * (changedJobs - jobs)) : 0;
  const kept = changedJobs < jobs ? changedJobs / jobs : 1;
  const traced = basis.step ? drawBeta(random, basis.step.traced + 0.5, basis.callbacks.counted - basis.step.traced + 0.5) : 0;
  const fewer = traced * (change.fewer.least + (change.fewer.most - change.fewer.least) * random());
  for (let at = 0; at < count + further; at++) {
    const cost = draw();
    if (at < count) pay(sides.now, cost, now);
    if (random() >= kept) continue;
    const fate = random();
    if (fate < fewer) continue;
    pay(sides.changed, cost, change);
    if (fate < -fewer) pay(sides.changed, draw(), change);
  }
  return sides;
}

/** The agreement's cap comes first, then the policy pays what exceeds the deductible, up to its limit for one claim. */
function pay(side: Brought, cost: number, { capCents, deductibleCents, limitCents }: OutlookTerms): void {
  const owed = capCents === null ? cost : Math.min(cost, capCents);
  const above = deductibleCents === null ? 0 : Math.max(0, owed - deductibleCents);
  const insurer = limitCents === null ? above : Math.min(above, limitCents);
  side.callbacks += 1;
  side.insurer += insurer;
  side.firm += owed - insurer;
}

function spreads({ now, changed }: Runs[OutlookMeasure]) {
  const difference = changed.map((value, at) => value - now[at]!);
  return { now: spread(now), changed: spread(changed), difference: spread(difference) };
}

function spread(values: Float64Array): Spread {
  const sorted = values.toSorted();
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
  return { mean: values.reduce((sum, value) => sum + value, 0) / values.length, lower: at(0.05), upper: at(0.95) };
}
