// Owns the planner's thread: one plan at a time, the others wait; a limit of time; a crash ends its plan, never the service.
import { Worker } from 'node:worker_threads';
import { breakOffPlan, finishPlan, type RunAnswer } from '@backsight/usecases/schedule/endPlan';
import { preparePlan } from '@backsight/usecases/schedule/preparePlan';
import type { Actor } from '@backsight/usecases/run';
import type { PlanOrder, PlanProgress, PlanReport, Planner } from '../http/planner.ts';
import { problemOf } from '../http/problem.ts';
import type { Services } from '../http/services.ts';

export type PlannerSettings = {
  /** The thread's program. */
  workerFile: string | URL;
  /** After so long the best so far is the answer, and so long after that the thread is ended. */
  limitMs?: number;
  /** The same for each of its steps, mostly one day. */
  stepMs?: number;
  patienceMs?: number;
};

type Parts = Pick<Services, 'runner' | 'database' | 'clock'>;
type Ended = { kind: 'done'; answers: RunAnswer[] } | { kind: 'failed' | 'stopped'; note: string };
/** The plan under way: days of its questions in order, the thread's stop sign, and how it ends. */
type Making = { id: string; days: string[]; stop: Int32Array<SharedArrayBuffer>; progress: PlanProgress; end: (ended: Ended) => void };

const LIMIT_MS = 120_000;
const STEP_MS = 10_000;
const PATIENCE_MS = 15_000;
const BY = { actor: { kind: 'service' } satisfies Actor };
const NOTHING: PlanProgress = { waiting: 0, done: 0, of: 0, day: null, phase: null, cost: null, bound: null, stopping: false };
const TOO_SLOW = 'It was stopped before there was any plan.';
const NOT_BEGUN = 'It was stopped before it began.';
const CRASHED = 'The planner broke off. Nothing was changed; ask for the plan again, and for fewer days if it happens again.';

class OneThread implements Planner {
  readonly #parts: Parts;
  readonly #settings: PlannerSettings;
  #waiting: string[] = [];
  #worker: Worker | null = null;
  #making: Making | null = null;
  #closed = false;

  constructor(parts: Parts, settings: PlannerSettings) {
    this.#parts = parts;
    this.#settings = settings;
  }

  expect(): void {
    if (!this.#closed) this.#thread();
  }

  make(id: string): void {
    if (this.#closed || this.#waiting.includes(id) || this.#making?.id === id) return;
    this.#waiting.push(id);
    this.#start();
  }

  progress(id: string): PlanProgress | null {
    if (this.#making?.id === id) return this.#making.progress;
    const at = this.#waiting.indexOf(id);
    return at < 0 ? null : { ...NOTHING, waiting: at + (this.#making ? 1 : 0) };
  }

  stop(id: string): boolean {
    const one = this.#making;
    if (one?.id === id) {
      this.#askToStop(one);
      return true;
    }
    if (!this.#waiting.includes(id)) return false;
    this.#waiting = this.#waiting.filter((other) => other !== id);
    void this.#breakOff(id, { kind: 'stopped', note: NOT_BEGUN });
    return true;
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#waiting = [];
    await this.#endThread();
  }

  /** What one plan ran into is no reason to leave those that wait. */
  #start(): void {
    const id = this.#making || this.#closed ? undefined : this.#waiting.shift();
    if (id === undefined) return;
    let end!: Making['end'];
    const ended = new Promise<Ended>((resolve) => (end = resolve));
    this.#making = { id, days: [], stop: new Int32Array(new SharedArrayBuffer(4)), progress: NOTHING, end };
    this.#makeOne(this.#making, ended)
      .catch((error) => {
        if (!this.#closed) console.error('planner:', error);
        return this.#breakOff(id, { kind: 'failed', note: CRASHED });
      })
      .finally(() => {
        this.#making = null;
        this.#start();
      });
  }

  async #makeOne(one: Making, ended: Promise<Ended>): Promise<void> {
    const { runner, database, clock } = this.#parts;
    const prepared = await preparePlan(database.read, clock(), one.id);
    if (!prepared.ok) return this.#breakOff(one.id, { kind: 'failed', note: problemOf(prepared).title });
    const { task } = prepared.value;
    one.days = task.runs.map(({ input }) => input.day);
    one.progress = { ...one.progress, of: task.runs.length, day: one.days[0] ?? null };
    this.#thread().postMessage({
      task,
      stop: one.stop.buffer,
      stepMs: task.stepMs ?? this.#settings.stepMs ?? STEP_MS,
    } satisfies PlanOrder);
    const limit = setTimeout(() => this.#askToStop(one), task.limitMs ?? this.#settings.limitMs ?? LIMIT_MS);
    const answer = await ended;
    clearTimeout(limit);
    if (this.#closed) return;
    if (answer.kind !== 'done') return this.#breakOff(one.id, answer);
    await runner.run(finishPlan, { id: one.id, prepared: prepared.value, answers: answer.answers }, BY);
  }

  async #breakOff(id: string, { kind, note }: Exclude<Ended, { kind: 'done' }>): Promise<void> {
    if (!this.#closed) await this.#parts.runner.run(breakOffPlan, { id, state: kind, note }, BY);
  }

  #askToStop(one: Making): void {
    if (one.progress.stopping) return;
    one.progress = { ...one.progress, stopping: true };
    Atomics.store(one.stop, 0, 1);
    setTimeout(() => {
      if (this.#making === one) void this.#endThread().then(() => one.end({ kind: 'stopped', note: TOO_SLOW }));
    }, this.#settings.patienceMs ?? PATIENCE_MS).unref();
  }

  #thread(): Worker {
    if (this.#worker) return this.#worker;
    const made = new Worker(this.#settings.workerFile, { execArgv: [] });
    const crashed = (why: unknown) => {
      if (why instanceof Error) console.error('planner:', why);
      if (this.#worker === made) this.#worker = null;
      this.#making?.end({ kind: 'failed', note: CRASHED });
    };
    made.on('message', (report: PlanReport) => this.#hear(report));
    made.on('error', crashed);
    made.on('exit', crashed);
    made.unref();
    return (this.#worker = made);
  }

  /** Ends the thread without its plan hearing of a crash. */
  async #endThread(): Promise<void> {
    const old = this.#worker;
    this.#worker = null;
    old?.removeAllListeners();
    await old?.terminate();
  }

  #hear(report: PlanReport): void {
    const one = this.#making;
    if (report.kind === 'done') one?.end(report);
    else if (report.kind === 'failed') one?.end({ kind: 'failed', note: `This could not be planned: ${report.message}` });
    else if (one) {
      const { run, phase, cost, bound } = report;
      one.progress = { ...one.progress, done: run, day: one.days[run] ?? null, phase, cost: Number.isFinite(cost) ? cost : null, bound };
    }
  }
}

/** Starts no thread before the first plan is expected. */
export const createPlanner = (parts: Parts, settings: PlannerSettings): Planner => new OneThread(parts, settings);
