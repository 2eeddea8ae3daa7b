// When a visit may start: on the grid, within its window and its promise; what is fixed has one start only.
import type { Minute } from '../time.ts';
import type { PlanInput, PlanVisit, PlanWeights } from './model.ts';

export const isFixed = (visit: PlanVisit): boolean => (visit.locked || visit.underWay) && visit.current !== null;

/** The window that binds: what is possible, narrowed to what was promised when promises are kept. */
export function bindingWindow(input: PlanInput, visit: PlanVisit): { from: Minute; until: Minute } {
  const { window, promise } = visit;
  if (!input.keepPromises || promise === null) return window;
  return { from: Math.max(window.from, promise.from), until: Math.min(window.until, promise.until) };
}

const within = ({ from, until }: { from: Minute; until: Minute }, start: Minute): boolean => from <= start && start <= until;

const isPromised = ({ promise, elsewhere = [] }: PlanVisit, start: Minute): boolean =>
  promise === null || [promise, ...elsewhere].some((one) => within(one, start));

/** A start in place of a promised one lies on a coarser grid: the half hour. */
const BROKEN_GRIDS = 2;

/** Every start allowed, earliest first; empty when there is none. */
export function startsOf(input: PlanInput, visit: PlanVisit): Minute[] {
  if (isFixed(visit)) return [visit.current!.start];
  const { from, until } = bindingWindow(input, visit);
  const starts = new Set<Minute>();
  for (let at = Math.ceil(from / input.grid) * input.grid; at <= until; at += input.grid) {
    if (isPromised(visit, at) || at % (BROKEN_GRIDS * input.grid) === 0) starts.add(at);
  }
  for (const other of visit.elsewhere ?? []) {
    for (let at = Math.ceil(other.from / input.grid) * input.grid; at <= other.until; at += input.grid) starts.add(at);
  }
  const now = visit.current?.start;
  if (now !== undefined && from <= now && now <= until) starts.add(now);
  if (starts.size === 0 && from <= until) starts.add(from);
  return [...starts].sort((a, b) => a - b);
}

/** What a member pays when the announced start of a visit moves. */
export function movedCost(weights: PlanWeights, visit: PlanVisit, start: Minute): number {
  if (!visit.announced || visit.current === null || visit.current.start === start) return 0;
  return weights.movedStart + weights.movedMinute * Math.abs(start - visit.current.start);
}

/** What a start outside the promise costs, once for the visit. */
export function promiseCost(weights: PlanWeights, visit: PlanVisit, start: Minute): number {
  return isPromised(visit, start) ? 0 : weights.brokenPromise;
}

/** Leaving out what is fixed is worse than anything that is not. */
const FIXED_FACTOR = 20;

export const leftOutCost = (weights: PlanWeights, visit: PlanVisit): number => weights.leftOut * (isFixed(visit) ? FIXED_FACTOR : 1);

/**
 * What a member pays who stays at an announced visit and goes first instead of second, or second instead of first. He is to be
 * told, but knows the house and his partner: a pair that changes who goes first costs a third of somebody new.
 */
export function otherPartCost(weights: PlanWeights, { announced, current }: PlanVisit, id: string, goesFirst: boolean): number {
  const changes = announced && current !== null && id === (goesFirst ? current.second : current.first);
  return changes ? Math.round((weights.unannounced / 6) * 20) / 20 : 0;
}
