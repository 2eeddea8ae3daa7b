// A plan as it is kept: what was asked, what came out day by day, and in groups what may be accepted.

/** day_plan: the days as booked, better; sick_call: somebody is out; weather: a closed time; what_if: the firm otherwise, nothing to accept. */
export const PLAN_KINDS = ['day_plan', 'sick_call', 'weather', 'what_if'] as const;
export type PlanKind = (typeof PLAN_KINDS)[number];

/** lost: the service was started again while it was being made. */
export const PLAN_STATES = ['asked', 'finished', 'stopped', 'failed', 'lost'] as const;
export type PlanState = (typeof PLAN_STATES)[number];

/** plan: the one answer; else how much it may change what people know already. */
export const PLAN_VARIANTS = ['plan', 'fewest_changes', 'balanced', 'cheapest'] as const;
export type PlanVariant = (typeof PLAN_VARIANTS)[number];

/** Who goes and when: minutes of the local clock on a day. */
export type Spot = { day: string; start: number; first: string; second: string | null };

/** `version` is that of the visit when the plan was made. `after` null: no place was found for it. */
export type KeptMove = {
  visitId: string;
  version: number;
  jobId: string;
  label: string;
  before: Spot | null;
  after: Spot | null;
  sentence: string;
};

/** Moves that only go together. */
export type KeptGroup = { key: string; moves: KeptMove[]; savingMinutes: number; drivingSavedMinutes: number };

export type PlanParts = {
  travel: number;
  wait: number;
  overtime: number;
  fairness: number;
  pairing: number;
  change: number;
  promises: number;
  leftOut: number;
};

/** One stretch of days that was planned as a whole: mostly one day. */
export type DayAnswer = {
  day: string;
  cost: number;
  bound: number;
  proven: boolean;
  gapPercent: number;
  within: string;
  stopped: boolean;
  parts: PlanParts;
  visits: number;
  groups: KeptGroup[];
  savingMinutes: number;
  drivingSavedMinutes: number;
  leftOut: { visitId: string; jobId: string; label: string; reasons: string[] }[];
};

export type PlanAnswer = { variants: { key: PlanVariant; days: DayAnswer[] }[] };

/** The groups that were chosen, in the order of the plan; null when a key is not of it, or two variants were mixed. */
export function chosenGroups(answer: PlanAnswer, keys: readonly string[]): KeptGroup[] | null {
  const groups = answer.variants.flatMap(({ key, days }) => days.flatMap((day) => day.groups.map((group) => ({ variant: key, group }))));
  const chosen = groups.filter(({ group }) => keys.includes(group.key));
  if (chosen.length !== new Set(keys).size || new Set(chosen.map(({ variant }) => variant)).size > 1) return null;
  return chosen.map(({ group }) => group);
}

/** Variants are answers to one question: once a group of one was accepted, the others are void. */
export const variantOf = (groupKey: string): string => groupKey.split('/')[0]!;
