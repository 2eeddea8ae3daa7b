// A plan that is handed to the planner's thread: plain data, and what must be known besides to keep its answer.
import type { PlanVariant, Spot, WhatIfChain } from '@backsight/domain/schedule/plans';
import type { PlanStep, StepAnswer } from '@backsight/scheduling/planSteps';
import type { TravelData } from '@backsight/scheduling/travelModel';
import { hashOf } from '../../run.ts';
import { labelOf, type PlanFacts } from './planInput.ts';

/** One day to be planned under one variant. */
export type PlanRun = PlanStep & { chain: PlanVariant | WhatIfChain };
/** `travels`: driving data of chains that have their own. `stepMs`, `limitMs`: other limits of time than usual. */
export type PlanTask = {
  travel: TravelData | null;
  travels: Partial<Record<PlanRun['chain'], TravelData>>;
  runs: PlanRun[];
  stepMs?: number;
  limitMs?: number;
};
/** The answer to the run at the same place of the task; null when there was no need to plan it. */
export type RunAnswer = Pick<StepAnswer, 'result' | 'difference' | 'partnersSave'> | null;

/** What of a visit the answer needs besides the planner's own words; `spot`: where it is now. */
export type SeenVisit = { version: number; jobId: string; label: string; spot: Spot };
/** `weeksFrom`: the first Monday of a what-if, and how many days before it the visits were taken from; null for plans that may be accepted. */
export type Prepared = {
  task: PlanTask;
  seen: Record<string, SeenVisit>;
  fingerprint: string;
  weeksFrom: { monday: string; back: number } | null;
};

export const seenOf = ({ visits }: PlanFacts): Record<string, SeenVisit> =>
  Object.fromEntries(
    visits.map((visit) => {
      const { version, jobId, day, start, first, second } = visit;
      return [visit.id, { version, jobId, label: labelOf(visit), spot: { day, start, first, second } }];
    }),
  );

/** Digest of what a plan rests on; another one means that the days changed since. */
export const fingerprintOf = ({ days, visits, world }: PlanFacts): string =>
  hashOf({
    days,
    visits: visits.map(({ id, version }) => [id, version]),
    people: world.people.map(({ id, shifts, off, licensedUntil, qualifications }) => [id, shifts, off, licensedUntil, qualifications]),
    closures: world.closures ?? [],
  });
