// Who could do each route, and at what cost of his own: the half of a column that belongs to one member.
import { fairnessCost } from './cost.ts';
import { Growing } from './growing.ts';
import type { Routes } from './routeList.ts';
import { movedCost, otherPartCost, promiseCost } from './starts.ts';
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
type Day = {
  out: number;
  back: number;
  begins: number;
  ends: number;
  driving: number;
  waiting: number;
  soft: number;
  writing: number;
  /** Start of the visit alone, -1 without one. */
  aloneAt: number;
};

/** Cost of a member as the second and as the first of the crew. */
type Costs = { second: number; first: number; least: number };

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
      if (!this.mayDo(member, route) || (!pair && !this.mayGoAlone(member, this.routes.needs[route]!))) continue;
      let base = this.addPlain(member, route, writing);
      for (const single of pair ? this.single : []) {
        if (this.mayGoAlone(member, this.tables.needs[single]!)) base = Math.min(base, this.addWithSingle(member, route, single, writing));
      }
      if (base < one) [one, two] = [base, one];
      else if (base < two) two = base;
    }
    this.least[route] = pair ? one + two : one;
  }

  private mayGoAlone(member: number, needs: number): boolean {
    const { tables } = this;
    return tables.mayGoAlone[member] === 1 && (tables.holds[member]! & needs) === needs;
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
    const [firstVisit, lastVisit] = this.endsOf(route);
    const day = {
      out: tables.out[member * m + firstVisit]!,
      back: tables.back[member * m + lastVisit]!,
      begins: routes.begins[route]!,
      ends: routes.ends[route]!,
      driving: routes.inner[route]!,
      waiting: routes.waits[route]!,
      soft: 0,
      writing,
      aloneAt: -1,
    };
    const costs = this.costsOf(member, route, day, -1);
    return costs === null ? Infinity : this.push(member, costs, -1, -1);
  }

  /** The same with a visit alone before or after it. Returns the least that it costs. */
  private addWithSingle(member: number, route: number, single: number, writing: number): number {
    if (this.tables.allowed[member * this.tables.visits.length + single] === 0) return Infinity;
    const least = [true, false].map((before) => this.addSingle(member, route, { single, before, writing }));
    return Math.min(...least);
  }

  /** The visit alone at its cheapest start, and once more at the one that leaves the first time to write where that is another. */
  private addSingle(
    member: number,
    route: number,
    { single, before, writing }: { single: number; before: boolean; writing: number },
  ): number {
    const list: { costs: Costs; start: number }[] = [];
    for (const start of this.tables.starts[single]!) {
      const day = this.dayWith(member, route, single, start, before);
      const costs = day === null ? null : this.costsOf(member, route, { ...day, writing }, single);
      if (costs !== null) list.push({ costs, start });
    }
    if (list.length === 0) return Infinity;
    const best = list.reduce((a, b) => (b.costs.least < a.costs.least ? b : a));
    const first = list.reduce((a, b) => (b.costs.first < a.costs.first ? b : a));
    if (best.costs.first === Infinity && first.costs.first < Infinity) this.push(member, first.costs, single, first.start);
    return this.push(member, best.costs, single, best.start);
  }

  private endsOf(route: number): [number, number] {
    const { routes } = this;
    return [routes.visits[routes.first[route]!]!, routes.visits[routes.first[route + 1]! - 1]!];
  }

  /** The member's day with the visit alone at that start; null when it does not fit beside the route. */
  private dayWith(member: number, route: number, single: number, start: number, before: boolean): Omit<Day, 'writing'> | null {
    const { tables, routes } = this;
    const m = tables.visits.length;
    const { weights } = tables.input;
    const visit = tables.visits[single]!;
    const [ownFirst, ownLast] = this.endsOf(route);
    if (before && tables.visits[ownFirst]!.underWay) return null;
    const drive = before ? tables.drive[single * m + ownFirst]! : tables.drive[ownLast * m + single]!;
    const slack = before ? routes.begins[route]! - start - visit.durationMinutes - drive : start - routes.ends[route]! - drive;
    if (slack < 0) return null;
    return {
      out: tables.out[member * m + (before ? single : ownFirst)]!,
      back: tables.back[member * m + (before ? ownLast : single)]!,
      begins: before ? start : routes.begins[route]!,
      ends: before ? routes.ends[route]! : start + visit.durationMinutes,
      driving: routes.inner[route]! + drive,
      waiting: routes.waits[route]! + slack,
      soft: movedCost(weights, visit, start) + promiseCost(weights, visit, start),
      aloneAt: start,
    };
  }

  private isFixedFirst(member: number, route: number): boolean {
    const { tables, routes } = this;
    const visits = routes.visits.subarray(routes.first[route]!, routes.first[route + 1]!);
    return visits.some((visit) => tables.fixedCrew[visit]?.[0] === tables.members[member]!.person);
  }

  /** What the day costs the member; null when his hours do not hold it. */
  private costsOf(member: number, route: number, day: Day, alone: number): Costs | null {
    const { tables, routes } = this;
    const { weights } = tables.input;
    const own = tables.members[member]!;
    const m = tables.visits.length;
    const [leaves, home] = [day.begins - day.out, day.ends + day.back];
    const [began, allBegan] = this.endsOf(route).map((visit) => tables.visits[visit]!.underWay);
    if (began ? day.begins < own.from || day.begins >= own.until : leaves < own.from) return null;
    if ((day.ends > own.closes || home > own.until) && (!allBegan || alone >= 0)) return null;
    const overtime = Math.max(0, home - own.closes);
    let cost = weights.travel * (day.out + day.driving + day.back - own.direct) + weights.wait * day.waiting + weights.overtime * overtime;
    cost += routes.soft[route]! + day.soft;
    for (let at = routes.first[route]!; at < routes.first[route + 1]!; at++) cost += tables.strange[member * m + routes.visits[at]!]!;
    if (alone >= 0) cost += tables.strange[member * m + alone]!;
    const ownReport = alone >= 0 ? tables.visits[alone]!.reportMinutes : 0;
    const work = home - leaves + ownReport;
    const left = { between: leaves - own.from + day.waiting, after: own.closes - home };
    const writes = (report: number, goesFirst: boolean) =>
      tables.writing === null || tables.writing.fits(member, left, report) || this.isAsNow(member, route, goesFirst, day, alone);
    const mayLead = tables.leads[member] === 1 || routes.crewSize[route] === 1 || this.isFixedFirst(member, route);
    const goesFirst = mayLead && writes(ownReport + day.writing, true);
    if (alone >= 0) cost += this.otherPart(member, alone, true);
    const asFirst = this.otherParts(member, route, true);
    const first = goesFirst ? cost + asFirst + fairnessCost(weights, work + day.writing, own.target) : Infinity;
    if (routes.crewSize[route] === 1) return goesFirst ? { second: first, first, least: first } : null;
    const asSecond = this.otherParts(member, route, false);
    const second = writes(ownReport, false) ? cost + asSecond + fairnessCost(weights, work, own.target) : Infinity;
    return first === Infinity && second === Infinity ? null : { second, first, least: Math.min(second, first) };
  }

  private otherPart(member: number, visit: number, goesFirst: boolean): number {
    const { input, people, members, visits } = this.tables;
    return otherPartCost(input.weights, visits[visit]!, people[members[member]!.person]!.id, goesFirst);
  }

  /** What it costs that the member goes first, or second, where it is announced otherwise. */
  private otherParts(member: number, route: number, goesFirst: boolean): number {
    const { first, visits } = this.routes;
    let cost = 0;
    for (let at = first[route]!; at < first[route + 1]!; at++) cost += this.otherPart(member, visits[at]!, goesFirst);
    return cost;
  }

  /** Whether the member does just what he is booked for: that may stay whatever is to be written. */
  private isAsNow(member: number, route: number, goesFirst: boolean, { aloneAt }: Day, alone: number): boolean {
    const { tables, routes } = this;
    const { id } = tables.people[tables.members[member]!.person]!;
    for (let at = routes.first[route]!; at < routes.first[route + 1]!; at++) {
      const { current } = tables.visits[routes.visits[at]!]!;
      if (current?.start !== routes.starts[at] || (goesFirst ? current?.first : current?.second) !== id) return false;
    }
    const single = alone < 0 ? null : tables.visits[alone]!.current;
    return alone < 0 || (single?.first === id && single.start === aloneAt);
  }

  private push(member: number, costs: Costs, alone: number, aloneStart: number): number {
    this.member.push(member);
    this.cost.push(costs.second);
    this.costFirst.push(costs.first);
    this.alone.push(alone);
    this.aloneStart.push(aloneStart);
    return costs.least;
  }
}

/** Lists, for every route, who could do it and at what cost. */
export const entriesOf = (tables: Tables, routes: Routes): Entries => new EntryTable(tables, routes).run();
