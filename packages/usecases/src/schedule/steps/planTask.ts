// A plan that is handed to the planner's thread, and its answer turned into what is kept.
import type { DayAnswer, KeptMove, PlanAnswer, PlanVariant, Spot } from '@backsight/domain/schedule/plans';
import type { Placement, PlanDifference, PlanInput, PlanMove, PlanResult } from '@backsight/scheduling/plan/model';
import type { TravelData } from '@backsight/scheduling/travelModel';
import { hashOf } from '../../run.ts';
import { labelOf, type PlanFacts } from './planInput.ts';

/** One day to be planned under one variant: plain data, so that it can be sent to another thread. */
export type PlanRun = { variant: PlanVariant; input: PlanInput };
export type PlanTask = { travel: TravelData | null; runs: PlanRun[] };
/** The answer to the run at the same place of the task. */
export type RunAnswer = { result: PlanResult; difference: PlanDifference };

/** What of a visit the answer needs besides the planner's own words. */
export type SeenVisit = { version: number; jobId: string; label: string };
export type Prepared = { task: PlanTask; seen: Record<string, SeenVisit>; fingerprint: string };

export const seenOf = ({ visits }: PlanFacts): Record<string, SeenVisit> =>
  Object.fromEntries(visits.map((visit) => [visit.id, { version: visit.version, jobId: visit.jobId, label: labelOf(visit) }]));

/** Digest of what a plan rests on; another one means that the days changed since. */
export const fingerprintOf = ({ days, visits, world }: PlanFacts): string =>
  hashOf({
    days,
    visits: visits.map(({ id, version }) => [id, version]),
    people: world.people.map(({ id, shifts, off, licensedUntil, qualifications }) => [id, shifts, off, licensedUntil, qualifications]),
    closures: world.closures ?? [],
  });

/** The answer as it is kept, variant by variant in the order of the task. */
export function answerOf({ task, seen }: Pick<Prepared, 'task' | 'seen'>, answers: readonly RunAnswer[]): PlanAnswer {
  const variants = [...new Set(task.runs.map(({ variant }) => variant))];
  return {
    variants: variants.map((key) => ({
      key,
      days: task.runs.flatMap((run, at) => (run.variant === key ? [dayAnswer(run, answers[at]!, seen)] : [])),
    })),
  };
}

function dayAnswer({ variant, input }: PlanRun, { result, difference }: RunAnswer, seen: Prepared['seen']): DayAnswer {
  const { cost, bound, proven, gapPercent, within, stopped, parts } = result;
  const { savingMinutes, drivingSavedMinutes } = difference;
  const groups = difference.groups.map((group, at) => ({
    key: `${variant}/${input.day}/${at}`,
    moves: group.moves.map((move) => keptMove(move, input.day, seen)),
    savingMinutes: group.savingMinutes,
    drivingSavedMinutes: group.drivingSavedMinutes,
  }));
  const leftOut = result.leftOut.map(({ visitId, reasons }) => ({
    visitId,
    jobId: seen[visitId]!.jobId,
    label: seen[visitId]!.label,
    reasons,
  }));
  return {
    day: input.day,
    cost,
    bound,
    proven,
    gapPercent,
    within,
    stopped,
    parts,
    visits: input.visits.length,
    groups,
    savingMinutes,
    drivingSavedMinutes,
    leftOut,
  };
}

const spotOf = (placement: Placement | null, day: string): Spot | null =>
  placement === null ? null : { day, start: placement.start, first: placement.first, second: placement.second };

const keptMove = (move: PlanMove, day: string, seen: Prepared['seen']): KeptMove => ({
  visitId: move.visitId,
  ...seen[move.visitId]!,
  before: spotOf(move.before, day),
  after: spotOf(move.after, day),
  sentence: move.sentence,
});
