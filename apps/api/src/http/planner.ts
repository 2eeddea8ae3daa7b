// The planner as the rest of the service sees it, and what is said between it and its thread.
import type { PlanTask, RunAnswer } from '@backsight/usecases/schedule/steps/planTask';

/** How far a plan is. `waiting`: how many are made before it. */
export type PlanProgress = {
  waiting: number;
  done: number;
  of: number;
  day: string | null;
  phase: 'routes' | 'first plan' | 'bound' | 'cuts' | 'proof' | null;
  /** Best cost so far and the least that is possible, of the day under way; minutes of one person's time. */
  cost: number | null;
  bound: number | null;
  stopping: boolean;
};

/** Makes one plan after the other, in a thread of its own. */
export type Planner = {
  /** Somebody is about to ask: starts the thread, so that the first plan need not wait for it. */
  expect: () => void;
  /** Makes a plan that was asked for, when those before it are done. */
  make: (planId: string) => void;
  /** Ends a plan soon: what was found so far becomes the answer. Answers whether it was being made. */
  stop: (planId: string) => boolean;
  /** Null when the plan is not being made. */
  progress: (planId: string) => PlanProgress | null;
  /** Ends the thread; whatever is being made is lost. */
  close: () => Promise<void>;
};

/** `stop` holds one number: not 0 = end soon with the best so far. After `stepMs` each step does so by itself. */
export type PlanOrder = { task: PlanTask; stop: SharedArrayBuffer; stepMs: number };
export type PlanReport =
  | { kind: 'progress'; run: number; phase: NonNullable<PlanProgress['phase']>; cost: number; bound: number | null }
  | { kind: 'done'; answers: RunAnswer[] }
  | { kind: 'failed'; message: string };
