// Column generation: solve the master problem over few columns, ask the pricing for columns that its prices call for, repeat
// until there is none. Prices are smoothed towards the best seen (Wentges 1997), because raw ones jump about.
import { skipOfColumn, visitsOfColumn } from './columns.ts';
import type { Column } from './columns.ts';
import type { Master, MasterSolution } from './master.ts';
import type { Priced, Pricing } from './pricing.ts';
import type { Search } from './search.ts';

const SMOOTHING = 0.7;
const LESS_SMOOTHING = 0.35;
const TOLERANCE = 1e-6;
const PER_ROUTE = 4;
const PER_MEMBER = 14;
/** With more routes than this, a quarter of them is priced at a time. */
const MANY_ROUTES = 4000;
const QUARTERS = 4;
const ENOUGH = 20;

/** The cheapest columns, not too many of one person. */
function pick(candidates: Priced[], member: (entry: number) => number, most: number): Column[] {
  const used = new Map<number, number>();
  const taken: Column[] = [];
  const uses = (entry: number) => (entry < 0 ? Infinity : (used.get(member(entry)) ?? 0));
  for (const one of candidates.sort((a, b) => a.reduced - b.reduced)) {
    if (taken.length >= most) break;
    if (uses(one.first) > PER_MEMBER && uses(one.second) > PER_MEMBER) continue;
    for (const entry of [one.first, one.second]) if (entry >= 0) used.set(member(entry), (used.get(member(entry)) ?? 0) + 1);
    taken.push(one);
  }
  return taken;
}

export class ColumnGeneration {
  /** A bound on every plan, from the best prices seen; valid also before the end. */
  lower = -Infinity;
  private readonly search: Search;
  private readonly master: Master;
  private readonly pricing: Pricing;
  private quarter = 0;

  constructor(search: Search, master: Master, pricing: Pricing) {
    this.search = search;
    this.master = master;
    this.pricing = pricing;
  }

  /** A few columns for every visit, so that the first prices mean something. */
  seed(columns: readonly Column[]): void {
    const { space } = this.search;
    const candidates = this.price(new Float64Array(this.master.layout.cuts), 0, 1, 1);
    const perVisit = new Map<number, number>();
    const worth = (one: Priced) => (one.cost - skipOfColumn(space, one)) / visitsOfColumn(space, one).length;
    const ranked = candidates.map((one) => ({ one, worth: worth(one) })).sort((a, b) => a.worth - b.worth);
    const wanted = ranked.filter(({ one }) => {
      let few = false;
      for (const visit of visitsOfColumn(space, one)) {
        const count = perVisit.get(visit) ?? 0;
        if (count >= 3) continue;
        perVisit.set(visit, count + 1);
        few = true;
      }
      return few;
    });
    this.master.add([...columns, ...wanted.map(({ one }) => one)]);
  }

  /** One round at most: what the prices call for right now. */
  step(duals: Float64Array): number {
    return this.exactly(duals, () => {});
  }

  /** The optimum of the relaxed master problem; null when stopped, out of rounds or given up by the solver. */
  run(): MasterSolution | null {
    let smoothing = SMOOTHING;
    let centre: Float64Array | null = null;
    this.lower = -Infinity;
    for (let round = 0; round < this.search.space.tables.input.budget.rounds; round++) {
      const solution = this.master.solve();
      this.search.work.lpRounds++;
      if (solution === null || this.search.shouldStop()) return null;
      let added = this.byQuarters(solution.duals);
      if (added === 0 && centre !== null) {
        const kept: Float64Array = centre;
        added = this.exactly(
          solution.duals.map((dual, row) => smoothing * (kept[row] ?? 0) + (1 - smoothing) * dual),
          (duals) => (centre = duals),
        );
        if (added === 0) smoothing = Math.max(0, smoothing - LESS_SMOOTHING);
      }
      if (added > 0) continue;
      added = this.exactly(solution.duals, (duals) => (centre = duals));
      if (added === 0) return solution;
      smoothing = SMOOTHING;
    }
    return null;
  }

  private byQuarters(duals: Float64Array): number {
    if (this.pricing.routes.length <= MANY_ROUTES) return 0;
    for (let tries = 0; tries < QUARTERS; tries++) {
      const candidates = this.price(duals, -TOLERANCE, PER_ROUTE, QUARTERS);
      if (candidates.length >= ENOUGH) return this.add(candidates);
    }
    return 0;
  }

  /** Prices every route; `better` is called when the prices give the best bound so far. */
  private exactly(duals: Float64Array, better: (duals: Float64Array) => void): number {
    const candidates: Priced[] = [];
    const question = { duals, cuts: this.master.cuts, limit: -TOLERANCE, perRoute: PER_ROUTE, step: 1, offset: 0 };
    const least = this.pricing.run({ ...question, emit: (one) => candidates.push(one) });
    const lower = this.lowerBound(duals, least);
    if (lower > this.lower) {
      this.lower = lower;
      better(duals);
    }
    return this.add(candidates);
  }

  /** Lagrangian bound: what the rows are worth at these prices, and every crew at the least reduced cost. */
  private lowerBound(duals: Float64Array, least: number): number {
    const { members, visits } = this.search.space.tables;
    const crews = visits.some((visit) => visit.crewSize === 1) ? members.length : members.length >> 1;
    return this.master.allLeftOut + this.master.worthOf(duals) + crews * least;
  }

  private price(duals: Float64Array, limit: number, perRoute: number, step: number): Priced[] {
    const candidates: Priced[] = [];
    const offset = step > 1 ? this.quarter++ % step : 0;
    this.pricing.run({ duals, cuts: this.master.cuts, limit, perRoute, step, offset, emit: (one) => candidates.push(one) });
    return candidates;
  }

  private add(candidates: Priced[]): number {
    const { tables, entries } = this.search.space;
    const most = 30 + 3 * (tables.visits.length + tables.members.length);
    const added = this.master.add(pick(candidates, (entry) => entries.member[entry]!, most));
    this.search.work.columns += added;
    return added;
  }
}
