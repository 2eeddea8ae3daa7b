// What a draft would have meant for the jobs of the last year: how often its new or changed steps apply and the minutes that they add.
import type { RuleContext } from '../shared/evaluate.ts';
import { evaluate } from '../shared/evaluate.ts';
import { siteBudget, type ItemCounts } from './budget.ts';
import { sameValue } from './sameValue.ts';
import type { Step } from './step.ts';

export type PastJob = { context: RuleContext; items: ItemCounts };

/** `minutesPerJob` is the mean over all jobs, negative when the draft saves time; null without jobs. Minutes are planned site minutes of the pair. */
export type Impact = {
  jobs: number;
  /** Jobs on which at least one added or changed step would have applied. */
  jobsTouched: number;
  minutesPerJob: number | null;
  steps: { key: string; title: string; jobs: number }[];
};

/** Steps of `after` that are new or differ in anything from the step of the same key in `before`. */
export const addedOrChanged = (before: readonly Step[], after: readonly Step[]): Step[] => {
  const old = new Map(before.map((step) => [step.key, step]));
  return after.filter((step) => !sameValue(old.get(step.key), step));
};

const applies = (step: Step, { context }: PastJob): boolean => evaluate(step.applies, context) !== 'no';

/** An unknown fact lets a step apply, as it does on site. */
export const impactOf = (before: readonly Step[], after: readonly Step[], jobs: readonly PastJob[]): Impact => {
  const touched = addedOrChanged(before, after);
  const minutes = (steps: readonly Step[]): number =>
    jobs.reduce((sum, { context, items }) => sum + siteBudget(steps, context, items).minutes, 0);
  return {
    jobs: jobs.length,
    jobsTouched: jobs.filter((job) => touched.some((step) => applies(step, job))).length,
    minutesPerJob: jobs.length === 0 ? null : Math.round(((minutes(after) - minutes(before)) / jobs.length) * 10) / 10,
    steps: touched.map((step) => ({ key: step.key, title: step.title, jobs: jobs.filter((job) => applies(step, job)).length })),
  };
};
