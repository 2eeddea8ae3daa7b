// The day planned again because something happened: people are out, or visits cannot take place for some hours. Visits come
// first, then promised starts, then the people who were announced, then driving: each level weighs more than all below it.
import type { Minute } from '../time.ts';
import type { PlanInput, PlanPerson, PlanResult, PlanTools, PlanVisit, PlanWeights } from './model.ts';
import { planDay } from './planDay.ts';

export type Disruption = {
  /** Away from and until these minutes of the day. */
  out: { personId: string; from: Minute; until: Minute; why: string }[];
  /** Visits that cannot take place in a span of the day. */
  closed: { visitIds: string[]; from: Minute; until: Minute }[];
};

export type ReplanKey = 'fewest changes' | 'balanced' | 'cheapest';

/** How dear changes are in each of the three plans. */
export const REPLANS: readonly { key: ReplanKey; changes: number }[] = [
  { key: 'fewest changes', changes: 4 },
  { key: 'balanced', changes: 1 },
  { key: 'cheapest', changes: 0 },
];

/** Minutes that no sum of changes and driving of one crew reaches, and that no broken promise of one crew reaches. */
const PROMISE = 1500;
const VISIT = 10_000;

/** Weights that put visits before promises before everything else, with changes `times` as dear. */
export const replanWeights = (weights: PlanWeights, times: number): PlanWeights => ({
  ...weights,
  leftOut: Math.max(weights.leftOut, VISIT),
  brokenPromise: Math.max(weights.brokenPromise, PROMISE),
  unannounced: weights.unannounced * times,
  movedStart: weights.movedStart * times,
  movedMinute: weights.movedMinute * times,
});

const isOut = (visit: PlanVisit, { out }: Disruption): boolean =>
  out.some(({ personId }) => visit.current?.first === personId || visit.current?.second === personId);

/** The longer part of a window that a closed span leaves, the one with the present start before others. */
function besideClosed(visit: PlanVisit, window: PlanVisit['window'], closed: { from: Minute; until: Minute }): PlanVisit['window'] {
  const before = { from: window.from, until: Math.min(window.until, closed.from - visit.durationMinutes) };
  const after = { from: Math.max(window.from, closed.until), until: window.until };
  const now = visit.current?.start ?? -1;
  const holds = (part: PlanVisit['window']) => part.from <= now && now <= part.until;
  if (holds(before) || holds(after)) return holds(before) ? before : after;
  return before.until - before.from >= after.until - after.from ? before : after;
}

function personAfter(person: PlanPerson, day: string, { out }: Disruption): PlanPerson {
  const away = out.filter(({ personId }) => personId === person.id).map(({ from, until, why }) => ({ day, start: from, end: until, why }));
  return away.length === 0 ? person : { ...person, off: [...person.off, ...away] };
}

function visitAfter(visit: PlanVisit, disruption: Disruption): PlanVisit {
  if (visit.underWay) return visit;
  const spans = disruption.closed.filter(({ visitIds }) => visitIds.includes(visit.id));
  const window = spans.reduce((left, span) => besideClosed(visit, left, span), visit.window);
  return { ...visit, window, locked: visit.locked && spans.length === 0 && !isOut(visit, disruption) };
}

/** The question that a disruption makes of a day; visits under way stay as they are, locks give way where they must. */
export const afterDisruption = (input: PlanInput, disruption: Disruption): PlanInput => ({
  ...input,
  keepPromises: false,
  people: input.people.map((person) => personAfter(person, input.day, disruption)),
  visits: input.visits.map((visit) => visitAfter(visit, disruption)),
});

/**
 * As `planDay`, but where promises may be broken they are kept first: only when a visit would be left out for them is the day
 * planned again with every promise open. The proof of a plan that keeps all visits and promises speaks of such plans.
 */
export async function planKeepingPromises(input: PlanInput, tools: PlanTools): Promise<PlanResult> {
  const kept = await planDay({ ...input, keepPromises: true }, tools);
  if (input.keepPromises || kept.leftOut.length === 0 || kept.stopped) return kept;
  return planDay(input, tools);
}

export type Replan = { key: ReplanKey; input: PlanInput; result: PlanResult };

/** Three plans for the day after the disruption, each with its proof. Errors as `planDay`. */
export async function replanDay(input: PlanInput, disruption: Disruption, tools: PlanTools): Promise<Replan[]> {
  const after = afterDisruption(input, disruption);
  const plans: Replan[] = [];
  for (const { key, changes } of REPLANS) {
    const asked = { ...after, weights: replanWeights(input.weights, changes) };
    plans.push({ key, input: asked, result: await planKeepingPromises(asked, tools) });
  }
  return plans;
}
