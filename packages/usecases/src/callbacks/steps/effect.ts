// Did a change help? What can be said of one step, from the jobs before and after it, and when more can be said.
import { maxSprtCriticalValue, maxSprtStatistic, sprt, sprtMeanLength } from '@backsight/statistics/sequential';
import { requiredExposure } from '@backsight/statistics/power';
import { rateRatioTest } from '@backsight/statistics/rateRatio';
import { garwoodInterval } from '@backsight/statistics/rates';
import type { ExposedJob, StepRecord } from '@backsight/store/callbacks/effect';
import { meets } from './working.ts';

const DAY = 86_400_000;
const YEAR = 365.25 * DAY;
const ALPHA = 0.05;
const BETA = 0.2;
const HALVING = 0.5;
/** The check for more failures ends when so many would be expected; set once for all, so that nobody chooses after looking. */
const MOST_EXPECTED = 5;
/** Records before the change from which on their share may stand for what was usual. */
const ENOUGH_BEFORE = 20;

export type Span = { jobs: number; failures: number; nearMisses: number };

/** Jobs at least `days` old at `now`, with the failures that came within so many days: every job is given the same time. */
export function spanOf(jobs: readonly ExposedJob[], days: number, now: Date): Span {
  const old = jobs.filter(({ inspectedAt }) => inspectedAt.getTime() + days * DAY <= now.getTime());
  const inTime = (job: ExposedJob) => job.failures.filter((at) => at.getTime() < job.inspectedAt.getTime() + days * DAY).length;
  return {
    jobs: old.length,
    failures: old.reduce((sum, job) => sum + inTime(job), 0),
    nearMisses: old.reduce((sum, job) => sum + job.nearMisses, 0),
  };
}

export const rateOf = ({ failures, jobs }: Span) =>
  jobs === 0 ? null : { rate: failures / jobs, ...garwoodInterval({ count: failures, exposure: jobs }) };

/** Jobs in a year at the pace of the last year; null while the step has been worked for less than a month. */
export function jobsPerYear(jobs: readonly ExposedJob[], now: Date): number | null {
  const first = jobs[0]?.inspectedAt.getTime();
  if (first === undefined || now.getTime() - first < 30 * DAY) return null;
  const span = Math.min(YEAR, now.getTime() - first);
  return (jobs.filter(({ inspectedAt }) => inspectedAt.getTime() > now.getTime() - span - 1).length * YEAR) / span;
}

export type RateResult = {
  verdict: 'fewer' | 'more' | 'no_difference' | 'too_early' | 'not_yet';
  comparison: { ratio: number | null; lower: number; upper: number | null; pMinimumLikelihood: number; pDoubling: number } | null;
  /** Jobs after the change that a halving needs in all, where any number is enough; and how many years that still takes. */
  neededJobs: number | null;
  /** Jobs on each side, where the past is too short for a comparison with it. */
  neededEach: number | null;
  years: number | null;
  sentence: string;
};

/** `full`: as many records as are counted on a side have come since the change, so that waiting shows no more. */
export type RateFacts = { before: Span; after: Span; perYear: number | null; days: number; inForce: boolean; full?: boolean };

/** The exact answer, or in plain words why there is none yet and how long it takes at the present pace. */
export function compareRates(facts: RateFacts): RateResult {
  const { before, after, perYear } = facts;
  const nothing = { comparison: null, neededJobs: null, neededEach: null, years: null };
  if (!facts.inForce) return { ...nothing, verdict: 'not_yet', sentence: 'Nothing is in force yet, so there is no "after".' };
  const comparison = before.jobs > 0 && after.jobs > 0 ? test(before, after) : null;
  const counts = countsOf(facts);
  if (comparison && comparison.pMinimumLikelihood < ALPHA) {
    const fewer = after.failures / after.jobs < before.failures / before.jobs;
    const than = fewer ? 'Fewer than chance alone would give' : 'More than chance alone would give: look at the change again';
    const sentence = `${counts} ${than} (p = ${comparison.pMinimumLikelihood.toFixed(3)}).`;
    return { ...nothing, comparison, verdict: fewer ? 'fewer' : 'more', sentence };
  }
  if (before.failures === 0) {
    const sentence = `${counts} Too early to tell. How long it takes cannot be estimated because no failure was counted before the change.`;
    return { ...nothing, comparison, verdict: 'too_early', sentence };
  }
  if (facts.full) return { ...nothing, comparison, verdict: 'no_difference', sentence: `${counts} ${AS_MANY_AS_COUNT}` };
  const wait = waitFor(before, after, perYear);
  if (wait.still === 0)
    return { ...nothing, comparison, verdict: 'no_difference', neededJobs: wait.neededJobs, sentence: `${counts} ${wait.words}` };
  const { neededJobs, neededEach, years, words } = wait;
  return { verdict: 'too_early', comparison, neededJobs, neededEach, years, sentence: `${counts} Too early to tell. ${words}` };
}

function test(before: Span, after: Span): NonNullable<RateResult['comparison']> {
  const group = { count: after.failures, exposure: after.jobs };
  const { confidence: _, ...found } = rateRatioTest(group, { count: before.failures, exposure: before.jobs });
  return found;
}

const AS_MANY_AS_COUNT =
  'No difference shows among the inspections nearest to the change, on either side as many as are counted: if there is one, it is smaller than they can show.';

function waitFor(before: Span, after: Span, perYear: number | null) {
  const rate = before.failures / before.jobs;
  const fixed = requiredExposure({ rate, ratio: HALVING, referenceExposure: before.jobs });
  const ask = 'To see the rate halved (with 80 % power, two-sided 5 %)';
  if (fixed) {
    const neededJobs = Math.ceil(fixed.group);
    const still = Math.max(0, neededJobs - after.jobs);
    const years = perYear ? still / perYear : null;
    const words =
      still === 0
        ? `As many jobs as a halving needs have been inspected since (${say(neededJobs)}), and no difference shows.`
        : `${ask} takes about ${say(neededJobs)} jobs after the change, ${say(still)} more than there are: ${pace(perYear, years)}.`;
    return { neededJobs, neededEach: null, still, years, words };
  }
  const each = requiredExposure({ rate, ratio: HALVING })!;
  const neededEach = Math.ceil(each.group);
  const years = perYear ? neededEach / perYear : null;
  const words = `${failed(before.failures)} before the change ${before.failures === 1 ? 'is' : 'are'} too few: no number of jobs after it would be enough. ${ask} from now on takes about ${say(neededEach)} jobs on each side, some ${each.failures} failures in all: ${pace(perYear, years)} for one side.`;
  return { neededJobs: null, neededEach, still: neededEach, years, words };
}

const say = (n: number): string => n.toLocaleString('en-US');
const failed = (n: number): string => (n === 0 ? 'no failure' : n === 1 ? '1 failure' : `${n} failures`);
const pace = (perYear: number | null, years: number | null): string =>
  perYear && years !== null
    ? `at ${say(Math.round(perYear))} jobs a year about ${years < 1 ? 'a year or less' : `${say(Math.round(years))} ${Math.round(years) === 1 ? 'year' : 'years'}`}`
    : 'how many years cannot be estimated because this step has been worked for less than a month';

const countsOf = ({ before, after, days }: RateFacts): string =>
  `Within ${days} days of the inspection ${failed(before.failures)} came up on ${say(before.jobs)} jobs before the change and ${failed(after.failures)} on ${say(after.jobs)} after it.`;

export type Check = { decision: 'better' | 'not_better' | 'worse' | 'go_on' | 'cannot' | 'ended'; sentence: string };
export type ShareCheck = Check & { looked: number; decidedAt: number | null; usual: number | null; hoped: number | null };

/** Wald's test of the share of records that do not meet the step: usual (as before the change) against half of that. */
export function checkShare(before: readonly StepRecord[], after: readonly StepRecord[]): ShareCheck {
  const bad = after.map((record) => !meets(record));
  const usual = before.length === 0 ? null : before.filter((record) => !meets(record)).length / before.length;
  const cannot = (because: string): ShareCheck => ({
    ...{ decision: 'cannot', looked: bad.length, decidedAt: null, usual, hoped: null },
    sentence: `This check cannot run because ${because}.`,
  });
  if (usual === null || before.length < ENOUGH_BEFORE)
    return cannot(`only ${before.length} sealed records from before the change say what was usual; ${ENOUGH_BEFORE} are needed`);
  if (usual === 0 || usual === 1)
    return cannot(`${usual === 0 ? 'every' : 'no'} record met the step before the change: there is no share that could halve`);
  const wald = { p0: usual, p1: usual * HALVING, alpha: ALPHA, beta: BETA };
  const found = sprt(wald, bad);
  const numbers = { looked: bad.length, decidedAt: found.decision === 'go_on' ? null : found.at, usual, hoped: wald.p1 };
  const from = `from ${percent(usual)} to ${percent(wald.p1)}`;
  if (found.decision === 'p1')
    return {
      ...numbers,
      decision: 'better',
      sentence: `Decided at record ${found.at}: the share that does not meet the step has halved (${from}).`,
    };
  if (found.decision === 'p0')
    return {
      ...numbers,
      decision: 'not_better',
      sentence: `Decided at record ${found.at}: the share that does not meet the step has not halved (${from}).`,
    };
  const mean = Math.ceil(sprtMeanLength(wald).underP1);
  return {
    ...numbers,
    decision: 'go_on',
    sentence: `Not decided after ${bad.length} records. If the share has halved (${from}), it takes about ${mean} records to say so.`,
  };
}

const percent = (share: number): string => `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;

export type FailureCheck = Check & { observed: number; expected: number | null; statistic: number | null; critical: number | null };

/** Maximized sequential test for more failures than the rate before the change would bring. */
export function checkFailures({ before, after }: { before: Span; after: Span }): FailureCheck {
  const observed = after.failures;
  if (before.failures === 0)
    return {
      decision: 'cannot',
      observed,
      expected: null,
      statistic: null,
      critical: null,
      sentence: 'This check cannot run because no failure was counted before the change: nothing says how many to expect.',
    };
  const expected = (before.failures / before.jobs) * after.jobs;
  const critical = maxSprtCriticalValue(MOST_EXPECTED, ALPHA);
  const statistic = expected > 0 ? maxSprtStatistic(observed, expected) : 0;
  const numbers = { observed, expected, statistic, critical };
  const seen = `${failed(observed)} where ${expected.toFixed(2)} would be expected at the rate of before`;
  if (expected <= MOST_EXPECTED && statistic >= critical)
    return { ...numbers, decision: 'worse', sentence: `${seen}: more than chance explains. Look at the change again.` };
  if (expected > MOST_EXPECTED)
    return {
      ...numbers,
      decision: 'ended',
      sentence: `${seen}. This check ended at ${MOST_EXPECTED} expected failures: read the exact comparison instead.`,
    };
  return {
    ...numbers,
    decision: 'go_on',
    sentence: `${seen}: no sign that the step fails oftener (${statistic.toFixed(2)}; it signals from ${critical.toFixed(2)} on).`,
  };
}
