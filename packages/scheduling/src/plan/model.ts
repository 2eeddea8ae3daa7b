// The plan of one day: what is known, what is asked, and the answer. `PlanInput` and `PlanResult` are plain data, so that
// they can be handed to a worker; what acts (solver, travel, cancel, progress) comes separately as `PlanTools`.
import type { Day, Minute } from '../time.ts';
import type { Place, Travel } from '../travel.ts';
import type { Busy, KitPool, PairRule, PersonInput } from '../world.ts';
import type { LpSolver } from './solver.ts';

export type PlanPerson = PersonInput & {
  /** Minutes past the working hours within which the drive home must end. */
  overtimeLimit: Minute;
  /** Minutes of work that would be this person's fair share of the day, or of all days planned together. */
  targetMinutes: Minute;
};

/** Who goes and when. `second` is null when one person goes alone. */
export type Placement = { first: string; second: string | null; start: Minute };

export type PlanVisit = {
  id: string;
  /** How people call it: shown in reasons and differences. */
  label: string;
  place: Place;
  durationMinutes: Minute;
  crewSize: 1 | 2;
  /** Earliest and latest start that is possible at all: daylight, office hours and closed times are already in it. */
  window: { from: Minute; until: Minute };
  /** Windows on other days of the plan to which the promise lets it move, counted from the first midnight. */
  elsewhere?: { from: Minute; until: Minute }[];
  /** Earliest and latest start that the client was promised; equal for an exact time. */
  promise: { from: Minute; until: Minute } | null;
  /** Qualifications that every member must hold, and those that the crew must hold between them. */
  needEach: string[];
  needAny: string[];
  kit: string[];
  /** Property and parties of the job, compared with `barredFrom`. */
  involves: string[];
  /** Writing the report afterwards: work of the first, done that day or by the end of his next working day. */
  reportMinutes: Minute;
  /** People who come along beside the crew; they are there at the present start. */
  observers?: string[];
  /** As it is planned now; null when it is not placed. */
  current: Placement | null;
  /** The crew and the client know of `current`: changes of it cost. */
  announced: boolean;
  /** Keeps crew and start. */
  locked: boolean;
  /** Has begun: keeps crew and start, and its people are there whatever the rules say now. */
  underWay: boolean;
};

/** What each disadvantage of a plan is worth, in minutes of one person's time. */
export type PlanWeights = {
  /** Per minute of driving of each person. */
  travel: number;
  /** Per minute that a person waits between two visits. */
  wait: number;
  /** Per minute past the working hours until home. */
  overtime: number;
  /** Per minute of work above and below the person's target; people without work cost nothing. */
  overTarget: number;
  underTarget: number;
  /** Two people who went together yesterday; falls by one for each day since. */
  rotation: number;
  /** Per member who was not announced for a visit; a sixth of it per member announced who goes first instead of second, or the other way round. */
  unannounced: number;
  /** Per member of a visit whose announced start moves: once, and per minute. */
  movedStart: number;
  movedMinute: number;
  /** A start outside the promise; only possible when `keepPromises` is false. */
  brokenPromise: number;
  /** A visit that is left out. */
  leftOut: number;
};

/** Limits in counted work, so that the same input always has the same answer. */
export type PlanBudget = {
  /** Most routes of one crew that are enumerated; beyond, waiting and long drives are cut and the bound holds for the rest only. */
  routes: number;
  /** Most rounds of column generation and of cuts. */
  rounds: number;
  cutRounds: number;
  /** Most columns handed to one integer program, and most nodes of its search. */
  columns: number;
  nodes: number;
};

export type PlanInput = {
  day: Day;
  /** Days planned together, from `day` on; one when absent. Minutes of later days count on: 1440 for each. */
  span?: number;
  people: PlanPerson[];
  visits: PlanVisit[];
  pairRules: PairRule[];
  kit: KitPool[];
  /** The rest of the calendar: days before and after, to which writing reaches, and visits of the days that are not planned. */
  around?: Busy[];
  /** Days on which two people went together lately. */
  together: { a: string; b: string; day: Day }[];
  weights: PlanWeights;
  /** Starts lie on this grid, counted from midnight; a current start off the grid may stay as it is. */
  grid: Minute;
  /** Whether a start outside the promise is forbidden. */
  keepPromises: boolean;
  budget: PlanBudget;
  seed: number;
};

export type Stop = { visitId: string; start: Minute };

/** Visits of one crew in time order. A person may be in several routes whose times do not overlap. */
export type Route = { first: string; second: string | null; stops: Stop[] };

export type Plan = { routes: Route[] };

/** Parts of the cost, each in minutes of one person's time. */
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

/** What was done to find and prove the plan. */
export type PlanWork = {
  routes: number;
  members: number;
  columns: number;
  lpRounds: number;
  cuts: number;
  nodes: number;
};

export type PlanResult = {
  plan: Plan;
  /** Sum of the parts; lower is better. */
  cost: number;
  parts: PlanParts;
  /** No plan of the day costs less than this; see `within`. */
  bound: number;
  proven: boolean;
  /** How far the plan may be from the best one, in percent of its cost. */
  gapPercent: number;
  /** Which plans the bound speaks of: every plan whose crews stay together, or only those left after routes were cut away. */
  within: 'crews that stay together' | 'shortlisted routes';
  leftOut: { visitId: string; reasons: string[] }[];
  /** The caller's `shouldStop` ended the search; such a result is not reproducible. */
  stopped: boolean;
  work: PlanWork;
};

export type PlanProgress = {
  phase: 'routes' | 'first plan' | 'bound' | 'cuts' | 'proof';
  /** Best plan so far and its cost; bound so far, null while none is known. */
  plan: Plan;
  cost: number;
  bound: number | null;
};

export type PlanTools = {
  solver: LpSolver;
  travel: Travel;
  shouldStop?: () => boolean;
  onProgress?: (progress: PlanProgress) => void;
};

/** One visit that is placed otherwise than now. `after` is null when it is left out. */
export type PlanMove = { visitId: string; label: string; before: Placement | null; after: Placement | null; sentence: string };

/** Moves that depend on each other: accepted together or not at all. Any set of groups together is a valid plan. */
export type MoveGroup = {
  moves: PlanMove[];
  /** Minutes of one person's time saved by this group; negative when it costs. */
  savingMinutes: number;
  /** Minutes of driving saved, all people together. */
  drivingSavedMinutes: number;
};

export type PlanDifference = { groups: MoveGroup[]; savingMinutes: number; drivingSavedMinutes: number };
