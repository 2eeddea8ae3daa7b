// What the steps of the search share: the best plan so far, the work done, and whether to stop.
import { planOf } from './columns.ts';
import type { Column, Space } from './columns.ts';
import type { Plan, PlanProgress, PlanTools, PlanWork } from './model.ts';

/** A smaller difference between a plan and the bound than this is a proof: costs are multiples of 0.05. */
export const PROOF = 0.045;

export class Search {
  readonly space: Space;
  readonly tools: PlanTools;
  work: PlanWork = { routes: 0, members: 0, columns: 0, lpRounds: 0, cuts: 0, nodes: 0 };
  /** Best columns so far and their cost, visits left out included. */
  best: Column[] = [];
  cost: number;
  bound: number | null = null;
  stopped = false;
  private phase: PlanProgress['phase'] = 'first plan';
  private readonly complete: (plan: Plan) => { plan: Plan; extra: number };

  /** `complete` adds what the search does not touch, and what that costs. */
  constructor(space: Space, tools: PlanTools, complete: Search['complete']) {
    this.space = space;
    this.tools = tools;
    this.complete = complete;
    this.cost = space.tables.skip.reduce((sum, skip) => sum + skip, 0);
    this.work.routes = space.routes.count;
    this.work.members = space.entries.member.length;
  }

  /** Asks the caller; once stopped it stays so. */
  shouldStop(): boolean {
    this.stopped ||= this.tools.shouldStop?.() ?? false;
    return this.stopped;
  }

  enter(phase: PlanProgress['phase']): void {
    this.phase = phase;
    this.report();
  }

  /** The same search over another space: it shares the work done and the wish to stop, not the plan. */
  within(space: Space): Search {
    const other = new Search(
      space,
      { solver: this.tools.solver, travel: this.tools.travel, shouldStop: () => this.shouldStop() },
      this.complete,
    );
    other.work = this.work;
    return other;
  }

  /** Keeps the columns when they are cheaper than the best so far. */
  offer(columns: readonly Column[], cost: number): void {
    if (cost >= this.cost - 1e-6) return;
    this.best = [...columns];
    this.cost = cost;
    this.report();
  }

  proven(): boolean {
    return this.bound !== null && this.cost - this.bound < PROOF;
  }

  private report(): void {
    if (!this.tools.onProgress) return;
    const { plan, extra } = this.complete(planOf(this.space, this.best));
    const bound = this.bound === null ? null : this.bound + extra;
    this.tools.onProgress({ phase: this.phase, plan, cost: this.cost + extra, bound });
  }
}
