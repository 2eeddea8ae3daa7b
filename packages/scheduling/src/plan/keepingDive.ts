// A good plan for a day on which more is asked than fits. A visit left out is dear, but a dive that may leave visits out finds
// that only at its end: so the relaxation keeps as many as it can throughout, and a step that costs too much is taken back.
import { costOfColumns } from './currentPlan.ts';
import { fullest, solveAgain } from './dive.ts';
import type { MasterSolution } from './master.ts';
import type { Relaxation } from './relax.ts';
import type { Search } from './search.ts';

const PRICINGS = 4;
/** Relaxations solved on the way: a way down takes about twelve, the others are spent on turning back. */
const STEPS = 40;
/** Only plans that are better by this share of the cost are looked for. */
const WORTH = 0.002;

/** A place on the way: columns taken whole and left out so far, and the relaxation with them. */
type Fork = {
  taken: readonly number[];
  left: readonly number[];
  solution: MasterSolution;
  /** Whether its fullest columns were taken already. */
  seen: boolean;
};

class KeepingDive {
  private readonly search: Search;
  private readonly relaxation: Relaxation;
  private readonly forks: Fork[] = [];
  private set: Pick<Fork, 'taken' | 'left'> = { taken: [], left: [] };

  constructor(search: Search, relaxation: Relaxation) {
    this.search = search;
    this.relaxation = relaxation;
  }

  run(): void {
    this.goTo([], []);
    for (let step = 0; step < STEPS && this.forks.length > 0 && !this.search.stopped; step++) {
      const fork = this.forks.at(-1)!;
      const { taken, left, solution } = fork;
      const next = fullest(solution);
      if (next.length === 0) {
        this.offer(solution);
        this.turnBack();
      } else if (!fork.seen) {
        fork.seen = true;
        this.goTo([...taken, ...next], left);
      } else {
        this.forks.pop();
        if (!this.goTo(taken, [...left, next[0]!])) this.turnBack();
      }
    }
    this.limitTo([], []);
  }

  /** Half the way: what was chosen last is seldom what was chosen wrongly. */
  private turnBack(): void {
    this.forks.length >>= 1;
  }

  /** Whether a better plan may lie there. */
  private goTo(taken: readonly number[], left: readonly number[]): boolean {
    this.limitTo(taken, left);
    const solution = solveAgain(this.search, this.relaxation, PRICINGS);
    if (solution === null || solution.cost >= this.search.cost * (1 - WORTH)) return false;
    const whole = [...solution.values.keys()].filter((column) => solution.values[column]! >= 1 - 1e-6);
    this.forks.push({ taken: [...new Set([...taken, ...whole])], left, solution, seen: false });
    return true;
  }

  private limitTo(taken: readonly number[], left: readonly number[]): void {
    const { master } = this.relaxation;
    for (const column of [...this.set.taken, ...this.set.left]) master.free(column);
    for (const column of taken) master.take(column);
    for (const column of left) master.leave(column);
    this.set = { taken, left };
  }

  private offer({ values }: MasterSolution): void {
    const columns = this.relaxation.master.columns.filter((_, at) => values[at]! > 0.5);
    this.search.offer(columns, costOfColumns(this.search.space, columns));
  }
}

/** Offers plans that keep `least` visits, a whole number; the master is left as it was, but for more columns. */
export function keepingDive(search: Search, relaxation: Relaxation, least: number): void {
  const { master } = relaxation;
  const before = master.count;
  master.limitCount({ least, most: before.most });
  new KeepingDive(search, relaxation).run();
  master.limitCount(before);
}
