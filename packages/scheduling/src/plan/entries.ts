// Who could do each route, and at what cost of his own: the half of a column that belongs to one member.
import { fairnessCost } from './cost.ts';
import { Growing } from './growing.ts';
import type { Routes } from './routeList.ts';
import { movedCost, promiseCost } from './starts.ts';
import type { Tables } from './tables.ts';

export type Entries = {
  /** Entries of route r are at first[r] .. first[r + 1]. */
  first: Int32Array;
  member: Int16Array;
  /** Cost as the second, and as the first, who writes the reports; Infinity when he may not go first. */
  cost: Float64Array;
  costFirst: Float64Array;
  /** A visit that the member does alone before or after the route, and when; -1 when none. */
  alone: Int16Array;
  aloneStart: Int16Array;
  /** The least that the two cheapest members of a route cost (one for a route of one person), visits alone not counted. */
  least: Float64Array;
};

/** A member's day around one route: what it adds to the route itself. */
type Day = { out: number; back: number; begins: number; ends: number; driving: number; waiting: number; soft: number; writing: number };

class EntryTable {
  readonly first = new Growing((length) => new Int32Array(length));
  readonly member = new Growing((length) => new Int16Array(length));
  readonly cost = new Growing((length) => new Float64Array(length));
  readonly costFirst = new Growing((length) => new Float64Array(length));
  readonly alone = new Growing((length) => new Int16Array(length));
  readonly aloneStart = new Growing((length) => new Int16Array(length));
  readonly least: Float64Array;
  private readonly tables: Tables;
  private readonly routes: Routes;
  /** Visits that one person does, which may stand before or after the route of a pair. */
  private readonly single: number[];

  constructor(tables: Tables, routes: Routes) {
    this.tables = tables;
    this.routes = routes;
    this.least = new Float64Array(routes.count);
    this.single = tables.visits.flatMap((visit, at) => (visit.crewSize === 1 && !visit.underWay ? [at] : []));
  }

  run(): Entries {
    for (let route = 0; route < this.routes.count; route++) this.addRoute(route);
    this.first.push(this.cost.length);
    const { first, member, cost, costFirst, alone, aloneStart, least } = this;
    return {
      first: first.done(),
      member: member.done(),
      cost: cost.done(),
      costFirst: costFirst.done(),
      alone: alone.done(),
      aloneStart: aloneStart.done(),
      least,
    };
  }

  private addRoute(route: number): void {
    const from = this.cost.length;
    this.first.push(from);
    const pair = this.routes.crewSize[route] === 2;
    const writing = this.writingOf(route);
    let [one, two] = [Infinity, Infinity];
    for (let member = 0; member < this.tables.members.length; member++) {
      if (!this.mayDo(member, route) || (!pair && this.tables.mayGoAlone[member] === 0)) continue;
      const base = this.addPlain(member, route, writing);
      if (base < one) [one, two] = [base, one];
      else if (base < two) two = base;
      if (pair && this.tables.mayGoAlone[member] === 1)
        for (const single of this.single) this.addWithSingle(member, route, single, writing);
    }
    this.least[route] = pair ? one + two : one;
  }

  private writingOf(route: number): number {
    let minutes = 0;
    for (let at = this.routes.first[route]!; at < this.routes.first[route + 1]!; at++) {
      minutes += this.tables.visits[this.routes.visits[at]!]!.reportMinutes;
    }
    return minutes;
  }

  private mayDo(member: number, route: number): boolean {
    const { tables, routes } = this;
    const m = tables.visits.length;
    for (let at = routes.first[route]!; at < routes.first[route + 1]!; at++) {
      if (tables.allowed[member * m + routes.visits[at]!] === 0) return false;
    }
    return true;
  }

  /** Route as it is, from and to the base. Returns its cost, Infinity when it does not fit. */
  private addPlain(member: number, route: number, writing: number): number {
    const { tables, routes } = this;
    const m = tables.visits.length;
    const firstVisit = routes.visits[routes.first[route]!]!;
    const lastVisit = routes.visits[routes.first[route + 1]! - 1]!;
    const out = tables.out[member * m + firstVisit]!;
    const back = tables.back[member * m + lastVisit]!;
    const [begins, ends] = [routes.begins[route]!, routes.ends[route]!];
    const day = { out, back, begins, ends, driving: routes.inner[route]!, waiting: routes.waits[route]!, soft: 0, writing };
    return this.add(member, route, day, -1, -1, tables.visits[firstVisit]!.underWay);
  }

  private addWithSingle(member: number, route: number, single: number, writing: number): void {
    const { tables } = this;
    if (tables.allowed[member * tables.visits.length + single] === 0) return;
    const before = this.bestSingle(member, route, single, true);
    const after = this.bestSingle(member, route, single, false);
    if (before) this.add(member, route, { ...before.day, writing }, single, before.start, false);
    if (after) this.add(member, route, { ...after.day, writing }, single, after.start, false);
  }

  /** The cheapest time for a visit alone before (or after) the route, judged by waiting and moving. */
  private bestSingle(member: number, route: number, single: number, before: boolean): { day: Omit<Day, 'writing'>; start: number } | null {
    const { tables, routes } = this;
    const { weights } = tables.input;
    const m = tables.visits.length;
    const visit = tables.visits[single]!;
    const ownFirst = routes.visits[routes.first[route]!]!;
    const ownLast = routes.visits[routes.first[route + 1]! - 1]!;
    if (before && tables.visits[ownFirst]!.underWay) return null;
    const drive = before ? tables.drive[single * m + ownFirst]! : tables.drive[ownLast * m + single]!;
    let best: { start: number; slack: number; soft: number; cost: number } | null = null;
    for (const start of tables.starts[single]!) {
      const slack = before ? routes.begins[route]! - start - visit.durationMinutes - drive : start - routes.ends[route]! - drive;
      if (slack < 0) continue;
      const soft = movedCost(weights, visit, start) + promiseCost(weights, visit, start);
      const cost = weights.wait * slack + soft;
      if (best === null || cost < best.cost) best = { start, slack, soft, cost };
    }
    if (best === null) return null;
    const [begins, ends] = before ? [best.start, routes.ends[route]!] : [routes.begins[route]!, best.start + visit.durationMinutes];
    const out = tables.out[member * m + (before ? single : ownFirst)]!;
    const back = tables.back[member * m + (before ? ownLast : single)]!;
    const driving = routes.inner[route]! + drive;
    return { day: { out, back, begins, ends, driving, waiting: routes.waits[route]! + best.slack, soft: best.soft }, start: best.start };
  }

  private isFixedFirst(member: number, route: number): boolean {
    const { tables, routes } = this;
    const visits = routes.visits.subarray(routes.first[route]!, routes.first[route + 1]!);
    return visits.some((visit) => tables.fixedCrew[visit]?.[0] === tables.members[member]!.person);
  }

  private add(member: number, route: number, day: Day, alone: number, aloneStart: number, began: boolean): number {
    const { tables, routes } = this;
    const { weights } = tables.input;
    const own = tables.members[member]!;
    const m = tables.visits.length;
    const [leaves, home] = [day.begins - day.out, day.ends + day.back];
    if ((leaves < own.from && !began) || day.ends > own.closes || home > own.until) return Infinity;
    const overtime = Math.max(0, home - own.closes);
    let cost = weights.travel * (day.out + day.driving + day.back) + weights.wait * day.waiting + weights.overtime * overtime;
    cost += routes.soft[route]! + day.soft;
    for (let at = routes.first[route]!; at < routes.first[route + 1]!; at++) cost += tables.strange[member * m + routes.visits[at]!]!;
    let writingAlone = 0;
    if (alone >= 0) {
      cost += tables.strange[member * m + alone]!;
      writingAlone = tables.visits[alone]!.reportMinutes;
    }
    const work = home - leaves + writingAlone;
    const goesFirst = tables.leads[member] === 1 || routes.crewSize[route] === 1 || this.isFixedFirst(member, route);
    this.member.push(member);
    this.cost.push(cost + fairnessCost(weights, work, own.target));
    this.costFirst.push(goesFirst ? cost + fairnessCost(weights, work + day.writing, own.target) : Infinity);
    this.alone.push(alone);
    this.aloneStart.push(aloneStart);
    return Math.min(this.cost.at(), this.costFirst.at());
  }
}

/** Lists, for every route, who could do it and at what cost. */
export const entriesOf = (tables: Tables, routes: Routes): Entries => new EntryTable(tables, routes).run();
