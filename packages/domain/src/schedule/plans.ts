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
export type KeptGroup = {
  key: string;
  moves: KeptMove[];
  savingMinutes: number;
  drivingSavedMinutes: number;
  /** Why it must be made whatever it saves: names of those who are away at the time of a visit. */
  away?: string[];
};

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
  /** Last of several days that were planned as one. */
  toDay?: string;
  /** What partners who change during the day save beyond the proven plan, which speaks of crews that stay together. */
  partnersSaveMinutes?: number;
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

/** The firm otherwise than it is: somebody more like a person (at a town, or at that person's base), another base, other speeds. */
export type WhatIfChange =
  | { kind: 'one_more'; likeId: string; town: string | null }
  | { kind: 'base'; personId: string; town: string }
  | { kind: 'speed'; percent: number };

/** One week planned by the firm as it is or as it would be. */
export type WhatIfSide = {
  /** Visits that were placed, of those that there were. */
  placed: number;
  /** Driving of all people together, minutes. */
  driving: number;
  /** Visits that fit when twice as many of the same kinds are asked for. */
  fit: number;
  /** Days whose plan was not proven to be the best. */
  unproven: number;
};
/** `monday`: of the week in which the visits were; `visits`: that there were in it. */
export type WhatIfWeek = { monday: string; visits: number; now: WhatIfSide; then: WhatIfSide };
/** `of`: whose visits were planned, those of the same weeks of last year or of the weeks themselves. */
export type WhatIfAnswer = { weeks: WhatIfWeek[]; of?: Exclude<WhatIfVisits, 'either'> };

/** Whose visits a what-if plans; either: those of last year if there are any, else of the weeks themselves. */
export const WHAT_IF_VISITS = ['either', 'last_year', 'these_weeks'] as const;
export type WhatIfVisits = (typeof WHAT_IF_VISITS)[number];

/** now and then: the firm as it is and as it would be; the full ones ask for twice the visits. */
export const WHAT_IF_CHAINS = ['now', 'now_full', 'then', 'then_full'] as const;
export type WhatIfChain = (typeof WHAT_IF_CHAINS)[number];
