// Whether the change of a corrective action helped, step by step, from the jobs and records until a moment; computed when somebody looks.
import { benjaminiHochberg } from '@backsight/statistics/multiplicity';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import type { ActionRow } from '@backsight/store/callbacks/actions';
import { tracedSteps } from '@backsight/store/callbacks/change';
import { countedAround, exposedJobs, followUpShare, recordsOfStep, type Counted } from '@backsight/store/callbacks/effect';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { checkFailures, checkShare, compareRates, jobsPerYear, rateOf, spanOf } from './effect.ts';
import { workingMeasure } from './working.ts';

/** Days that each job may be given for a callback to come. */
const FOLLOW_UPS = [30, 90, 180, 365] as const;
const MOST_CAME = 0.9;
/**
 * Records of the firm that are counted on each side of a change at most. So many jobs show a halving where one job in two hundred had failed
 * (`requiredExposure`: 10,267 on each side); a firm of four inspectors has not as many in ten years.
 */
const MOST_EACH_SIDE = 10_000;

/** Unless somebody asks for others: the fewest within which nine of ten callbacks of the firm came. */
async function usualFollowUp(reader: Reader): Promise<number> {
  for (const days of FOLLOW_UPS) {
    const { within, total } = await followUpShare(reader, days);
    if (within >= MOST_CAME * total) return days;
  }
  return FOLLOW_UPS.at(-1)!;
}

export type Effect = Awaited<ReturnType<typeof effectOf>>;

/** The effect on every step that the callbacks of the action were traced to; `now` may lie behind: what was inspected later is left out. */
export async function effectOf(reader: Reader, action: ActionRow, { now, days: asked }: { now: Date; days: number | null }) {
  const days = asked ?? (await usualFollowUp(reader));
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const changedAt = action.changedAt && action.changedAt <= now ? action.changedAt : null;
  const traced = await tracedSteps(reader, action.id);
  const roots = [...new Set(traced.map(({ root }) => root))];
  const counted = await countedAround(reader, changedAt ?? now, MOST_EACH_SIDE);
  const steps = [];
  for (const root of roots) {
    const title = traced.find((step) => step.root === root)!.title;
    steps.push({ stepKey: root, title, ...(await stepEffect(reader, root, { now, days, zone, changedAt, counted })) });
  }
  const adjusted = benjaminiHochberg(steps.flatMap(({ rates }) => rates.comparison?.pMinimumLikelihood ?? []));
  const compared = steps.filter(({ rates }) => rates.comparison !== null);
  return {
    followUpDays: days,
    followUp: await followUpShare(reader, days),
    changedAt: changedAt?.toISOString() ?? null,
    counted: { most: MOST_EACH_SIDE, after: dayIn(counted.after, zone), before: dayIn(counted.before, zone) },
    steps: steps.map((step) => ({ ...step, pAdjusted: compared.length > 1 ? (adjusted[compared.indexOf(step)] ?? null) : null })),
  };
}

const dayIn = (at: Date | null, zone: string): string | null => (at ? wallTime(at, zone).day : null);

type StepFacts = { now: Date; days: number; zone: string; changedAt: Date | null; counted: Counted };

async function stepEffect(reader: Reader, root: string, { now, days, zone, changedAt, counted }: StepFacts) {
  const jobs = (await exposedJobs(reader, root, counted)).filter(({ inspectedAt }) => inspectedAt <= now);
  const records = (await recordsOfStep(reader, root, counted)).filter(({ openedAt }) => openedAt <= now);
  const isAfter = (at: Date): boolean => changedAt !== null && at >= changedAt;
  const [was, is] = [jobs.filter((j) => !isAfter(j.inspectedAt)), jobs.filter((j) => isAfter(j.inspectedAt))];
  const [before, after] = [spanOf(was, days, now), spanOf(is, days, now)];
  const ended = counted.before !== null && counted.before < now;
  const perYear = jobsPerYear(jobs, ended ? counted.before! : now);
  const [old, fresh] = [records.filter((r) => !isAfter(r.openedAt)), records.filter((r) => isAfter(r.openedAt))];
  /** Jobs after the change that are not old enough to be counted, and what has come of them so far. */
  const young = { jobs: is.length - after.jobs, failures: is.reduce((sum, job) => sum + job.failures.length, 0) - after.failures };
  return {
    before: { ...before, rate: rateOf(before) },
    after: { ...after, rate: rateOf(after) },
    young,
    jobsPerYear: perYear,
    rates: compareRates({ before, after, perYear, days, inForce: changedAt !== null, full: young.jobs === 0 && ended }),
    working: workingMeasure(old, fresh, zone),
    shareCheck: checkShare(old, fresh),
    failureCheck: checkFailures({ before, after }),
  };
}

/** The numbers of a look, without the weekly points: what a review keeps. */
export const figuresOf = ({ followUpDays, changedAt, steps }: Effect) => ({
  followUpDays,
  changedAt,
  steps: steps.map(({ stepKey, title, before, after, young, rates, working, shareCheck, failureCheck }) => ({
    stepKey,
    title,
    before: { jobs: before.jobs, failures: before.failures },
    after: { jobs: after.jobs, failures: after.failures },
    young: young.jobs,
    verdict: rates.verdict,
    ratio: rates.comparison?.ratio ?? null,
    lower: rates.comparison?.lower ?? null,
    upper: rates.comparison?.upper ?? null,
    p: rates.comparison?.pMinimumLikelihood ?? null,
    metBefore: working.before ? { count: working.before.count, total: working.before.total } : null,
    metAfter: working.after ? { count: working.after.count, total: working.after.total } : null,
    shareCheck: shareCheck.decision,
    failureCheck: failureCheck.decision,
  })),
});
