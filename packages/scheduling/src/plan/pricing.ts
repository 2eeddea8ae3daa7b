// Every column whose reduced cost is below a limit, found route by route as a sum of two members: the pairs themselves are
// never listed. The cost of a column is a sum of what each member pays, so the cheapest members bound every pair.
import { Between } from './between.ts';
import { kitRow, layoutOf, mayForm, pairUp, wornBy } from './columns.ts';
import type { Column, Layout, Space } from './columns.ts';
import type { Cut } from './cutRows.ts';

export type Priced = Column & { reduced: number };

export type PriceQuestion = {
  /** One per row of the master problem, none positive. */
  duals: Float64Array;
  cuts: readonly Cut[];
  /** Only columns with a reduced cost below it. */
  limit: number;
  /** Most columns of one route. */
  perRoute: number;
  /** Every `step`-th route, beginning with `offset`. */
  step: number;
  offset: number;
  emit: (column: Priced) => void;
};

/** Duals of cuts, reachable by row. */
class CutPrices {
  readonly any: boolean;
  private readonly duals: Float64Array;
  private readonly base: number;
  private readonly byRow: (number[] | undefined)[];
  private readonly hits: Uint8Array;

  constructor(cuts: readonly Cut[], duals: Float64Array, layout: Layout) {
    this.duals = duals;
    this.base = layout.cuts;
    this.hits = new Uint8Array(cuts.length);
    this.byRow = Array.from({ length: layout.kit });
    cuts.forEach((cut, at) => {
      if (duals[layout.cuts + at]! > -1e-9) return;
      for (const row of cut.rows) (this.byRow[row] ??= []).push(at);
    });
    this.any = this.byRow.some((list) => list !== undefined);
  }

  /** Takes a row; returns what the cuts that it fills cost. */
  take(row: number): number {
    let cost = 0;
    for (const at of this.byRow[row] ?? []) if ((++this.hits[at]! & 1) === 0) cost -= this.duals[this.base + at]!;
    return cost;
  }

  release(row: number): void {
    for (const at of this.byRow[row] ?? []) this.hits[at]!--;
  }
}

export class Pricing {
  private readonly space: Space;
  private readonly layout: Layout;
  private readonly between: Between;
  /** Members worth pairing on the route at hand, cheapest first: their value, entry and parts (see between.ts). */
  private readonly values: Float64Array;
  private readonly chosen: Int32Array;
  private readonly parts: Uint8Array;
  /** Value of every entry of the route at hand, and least cost of every entry at all. */
  private readonly all: Float64Array;
  private readonly low: Float64Array;
  /** Routes that are priced. */
  routes: Int32Array;

  constructor(space: Space, routes: Int32Array = Int32Array.from({ length: space.routes.count }, (_, route) => route)) {
    this.space = space;
    this.layout = layoutOf(space.tables);
    this.between = new Between(space);
    let most = 0;
    for (let route = 0; route < space.routes.count; route++)
      most = Math.max(most, space.entries.first[route + 1]! - space.entries.first[route]!);
    this.values = new Float64Array(most);
    this.chosen = new Int32Array(most);
    this.parts = new Uint8Array(most);
    this.all = new Float64Array(most);
    this.routes = routes;
    this.low = space.entries.cost.map((cost, entry) => Math.min(cost, space.entries.costFirst[entry]!));
  }

  /** Prices only routes with a column below the limit; returns what prices them all as before. */
  narrow(question: Pick<PriceQuestion, 'duals' | 'cuts' | 'limit'>): () => void {
    const { routes } = this;
    const near: number[] = [];
    this.run({ ...question, perRoute: 1, step: 1, offset: 0, emit: ({ route }) => near.push(route) });
    this.routes = Int32Array.from(near);
    return () => (this.routes = routes);
  }

  /** Emits the columns; returns a value that no reduced cost of the routes looked at is below, at most 0. */
  run(question: PriceQuestion): number {
    const cuts = new CutPrices(question.cuts, question.duals, this.layout);
    const bonus = this.bonus(question.duals);
    let least = 0;
    for (let at = question.offset; at < this.routes.length; at += question.step) {
      least = Math.min(least, this.priceRoute(question, cuts, this.routes[at]!, bonus));
    }
    return least;
  }

  /** What an entry with a visit alone may gain at most. */
  private bonus(duals: Float64Array): number {
    const { visits, skip } = this.space.tables;
    return visits.reduce(
      (most, visit, at) => (visit.crewSize === 1 ? Math.max(most, skip[at]! + duals[at]! + duals[this.layout.count]!) : most),
      0,
    );
  }

  private priceRoute(question: PriceQuestion, cuts: CutPrices, route: number, bonus: number): number {
    const { duals, limit } = question;
    const { routes, entries } = this.space;
    const pair = routes.crewSize[route] === 2;
    let base = this.routeValue(duals, route);
    if (entries.least[route]! + base - (pair ? 2 * bonus : 0) >= limit) return 0;
    const [from, to] = [routes.first[route]!, routes.first[route + 1]!];
    if (cuts.any) for (let at = from; at < to; at++) base += cuts.take(routes.visits[at]!);
    const bound = this.evaluate(duals, route, pair) + base;
    if (bound < limit) {
      const count = this.collect(route, limit - base, pair);
      if (pair) this.pairs(question, cuts, route, base, count);
      else this.singles(question, cuts, route, base, count);
    }
    if (cuts.any) for (let at = from; at < to; at++) cuts.release(routes.visits[at]!);
    return bound;
  }

  /** The route's part of the reduced cost: what its visits save, less what its rows are worth. */
  private routeValue(duals: Float64Array, route: number): number {
    const { routes, tables } = this.space;
    const [from, to] = [routes.first[route]!, routes.first[route + 1]!];
    let value = -routes.skip[route]! - duals[this.layout.count]! * (to - from);
    for (let at = from; at < to; at++) value -= duals[routes.visits[at]!]!;
    const kit = routes.kit[route]! & ~tables.worn;
    return kit === 0 ? value : value - this.kitWorth(duals, route, kit);
  }

  /** Values of the route's entries at these prices into `all`; returns what no crew is below. */
  private evaluate(duals: Float64Array, route: number, pair: boolean): number {
    const { entries, tables } = this.space;
    const { all, low, layout, between } = this;
    const from = entries.first[route]!;
    const to = entries.first[route + 1]!;
    let one = Infinity;
    let two = Infinity;
    between.begin(route);
    for (let entry = from; entry < to; entry++) {
      let value = low[entry]! - duals[layout.members + entries.member[entry]!]!;
      if (entries.alone[entry]! >= 0) value += this.aloneValue(duals, route, entries.alone[entry]!);
      if (tables.worn !== 0) value -= this.kitWorth(duals, route, wornBy(this.space, route, entry));
      all[entry - from] = value;
      between.add(between.partsOf(entries.member[entry]!), value);
      if (value < one) {
        two = one;
        one = value;
      } else if (value < two) two = value;
    }
    return pair ? Math.max(one + two, between.bound()) : one;
  }

  /** What a visit alone adds to its member's value, besides the route. */
  private aloneValue(duals: Float64Array, route: number, alone: number): number {
    const { tables } = this.space;
    return (
      -tables.skip[alone]! - duals[alone]! - duals[this.layout.count]! - this.kitWorth(duals, route, tables.kitOf[alone]! & ~tables.worn)
    );
  }

  /** Sum of the prices of some pools of kit on the day of the route. */
  private kitWorth(duals: Float64Array, route: number, kit: number): number {
    let worth = 0;
    for (let kind = 0; kind < this.space.tables.kinds; kind++) {
      if ((kit >> kind) & 1) worth += duals[this.layout.kit + kitRow(this.space, route, kind)]!;
    }
    return worth;
  }

  /** Entries that are in some crew below `limit` into `values`, `chosen` and `parts`, cheapest first. */
  private collect(route: number, limit: number, pair: boolean): number {
    const { first, member } = this.space.entries;
    const { all, values, chosen, parts, between } = this;
    const from = first[route]!;
    const to = first[route + 1]!;
    let count = 0;
    for (let entry = from; entry < to; entry++) {
      const value = all[entry - from]!;
      if (value >= limit && !pair) continue;
      const own = between.partsOf(member[entry]!);
      if (pair && value + between.partner(own) >= limit) continue;
      let at = count++;
      for (; at > 0 && values[at - 1]! > value; at--) {
        values[at] = values[at - 1]!;
        chosen[at] = chosen[at - 1]!;
        parts[at] = parts[at - 1]!;
      }
      values[at] = value;
      chosen[at] = entry;
      parts[at] = own;
    }
    return count;
  }

  private singles(question: PriceQuestion, cuts: CutPrices, route: number, base: number, count: number): void {
    const { entries } = this.space;
    for (let at = 0; at < Math.min(count, question.perRoute); at++) {
      const entry = this.chosen[at]!;
      const row = this.layout.members + entries.member[entry]!;
      const reduced = this.values[at]! + base + (cuts.any ? cuts.take(row) : 0);
      if (cuts.any) cuts.release(row);
      if (reduced < question.limit) question.emit({ route, first: entry, second: -1, cost: entries.costFirst[entry]!, reduced });
    }
  }

  private pairs(question: PriceQuestion, cuts: CutPrices, route: number, base: number, count: number): void {
    const { values, chosen, parts, low } = this;
    const { whole } = this.between;
    const { entries, tables } = this.space;
    const { limit } = question;
    let emitted = 0;
    for (let i = 0; i < count; i++) {
      if (2 * values[i]! + base >= limit) return;
      const a = chosen[i]!;
      for (let j = i + 1; j < count; j++) {
        if (values[i]! + values[j]! + base >= limit) break;
        const b = chosen[j]!;
        if ((parts[i]! | parts[j]!) !== whole || !mayForm(this.space, route, a, b)) continue;
        const rotation = tables.rotation[entries.member[a]! * tables.members.length + entries.member[b]!]!;
        const least = base + values[i]! + values[j]! + rotation;
        if (least >= limit) continue;
        const column = pairUp(this.space, route, a, b);
        const reduced = least + column.cost - rotation - low[a]! - low[b]! + (cuts.any ? this.cutsOf(cuts, a, b) : 0);
        if (reduced >= limit) continue;
        question.emit({ ...column, reduced });
        if (++emitted >= question.perRoute) return;
      }
    }
  }

  /** What the cuts that a pair fills beyond its route cost. */
  private cutsOf(cuts: CutPrices, a: number, b: number): number {
    const { entries } = this.space;
    const rows = [this.layout.members + entries.member[a]!, this.layout.members + entries.member[b]!];
    for (const entry of [a, b]) if (entries.alone[entry]! >= 0) rows.push(entries.alone[entry]!);
    const cost = rows.reduce((sum, row) => sum + cuts.take(row), 0);
    for (const row of rows) cuts.release(row);
    return cost;
  }
}
