// Every sequence of visits that one crew could do in a day, with every start vector that could be the cheapest for somebody.
import { RouteList } from './routeList.ts';
import type { Routes } from './routeList.ts';
import { movedCost, promiseCost } from './starts.ts';
import type { Tables } from './tables.ts';
import { keepBest } from './timing.ts';
import type { Timing } from './timing.ts';

/** Most visits of one crew in a day. */
const LONGEST = 6;

/** Cuts that keep the number of routes within the budget; Infinity when nothing is cut. */
export type Shortlist = { longestWait: number; longestDrive: number };

/** Cuts tried in turn until the routes fit into a budget. */
export const SHORTLISTS: readonly Shortlist[] = [
  { longestWait: 120, longestDrive: 60 },
  { longestWait: 60, longestDrive: 45 },
  { longestWait: 30, longestDrive: 30 },
  { longestWait: 15, longestDrive: 20 },
];

type Crew = [number, number] | null;

/** A sequence under way: its last visit, driving and time at the visits so far, the crew it is bound to, and its timings. */
type Partial = { last: number; inner: number; work: number; crew: Crew; timings: Timing[] };

/** What each member of the crew pays when the visit starts then, by the position of the start. */
function softCosts(tables: Tables): number[][] {
  const { weights } = tables.input;
  return tables.visits.map((visit, at) =>
    tables.starts[at]!.map((start) => movedCost(weights, visit, start) + promiseCost(weights, visit, start) / visit.crewSize),
  );
}

/** Times that nobody can beat: earliest start, latest end at all, and latest end as the last visit of the day. */
function reachOf(tables: Tables): { earliest: number; closes: number; latest: number }[] {
  const m = tables.visits.length;
  return tables.visits.map((visit, j) => {
    const who = tables.members.map((member, i) => ({ member, at: i * m + j })).filter(({ at }) => tables.allowed[at] === 1);
    if (visit.underWay) return { earliest: -Infinity, closes: Infinity, latest: Infinity };
    return {
      earliest: Math.min(...who.map(({ member, at }) => member.from + tables.out[at]!)),
      closes: Math.max(...who.map(({ member }) => member.closes)),
      latest: Math.max(...who.map(({ member, at }) => Math.min(member.closes, member.until - tables.back[at]!))),
    };
  });
}

class Enumeration {
  readonly list: RouteList;
  private readonly tables: Tables;
  private readonly most: number;
  private readonly shortlist: Shortlist;
  private readonly soft: number[][];
  private readonly reach: ReturnType<typeof reachOf>;
  private readonly spare: number;
  private readonly sequence: number[] = [];

  constructor(tables: Tables, most: number, shortlist: Shortlist) {
    this.tables = tables;
    this.most = most;
    this.shortlist = shortlist;
    this.list = new RouteList(tables);
    this.soft = softCosts(tables);
    this.reach = reachOf(tables);
    this.spare = tables.input.weights.wait - tables.input.weights.underTarget;
  }

  /** False when there are too many. */
  run(): boolean {
    return this.tables.visits.every((visit, at) => {
      const timings = this.begin(at);
      const crew = this.tables.fixedCrew[at]!;
      return timings.length === 0 || this.extend(at, { last: at, inner: 0, work: visit.durationMinutes, crew, timings });
    });
  }

  private begin(visit: number): Timing[] {
    const { earliest, closes } = this.reach[visit]!;
    const length = this.tables.visits[visit]!.durationMinutes;
    return this.tables.starts[visit]!.flatMap((start, at) => {
      const fits = start >= earliest && start + length <= closes;
      return fits ? [{ begins: start, ends: start + length, soft: this.soft[visit]![at]!, starts: [start] }] : [];
    });
  }

  private follow({ timings, last }: Partial, visit: number): Timing[] {
    const { tables, soft, spare } = this;
    const kept: Timing[] = [];
    const length = tables.visits[visit]!.durationMinutes;
    const drive = tables.drive[last * tables.visits.length + visit]!;
    const starts = tables.starts[visit]!;
    for (const timing of timings) {
      let cheapest = Infinity;
      for (let at = 0; at < starts.length && cheapest > 0; at++) {
        const [start, own] = [starts[at]!, soft[visit]![at]!];
        if (own >= cheapest || start < timing.ends + drive || start + length > this.reach[visit]!.closes) continue;
        if (start - timing.ends - drive > this.shortlist.longestWait) break;
        cheapest = own;
        keepBest(kept, { begins: timing.begins, ends: start + length, soft: timing.soft + own, starts: [...timing.starts, start] }, spare);
      }
    }
    return kept;
  }

  private keep({ last, timings, inner, work }: Partial): void {
    const best: Timing[] = [];
    for (const timing of timings) if (timing.ends <= this.reach[last]!.latest) keepBest(best, timing, this.spare);
    for (const timing of best) {
      if (timing.ends - timing.begins - work - inner <= this.shortlist.longestWait) this.list.add(this.sequence, timing, inner, work);
    }
  }

  private extend(visit: number, route: Partial): boolean {
    this.sequence.push(visit);
    this.keep(route);
    let within = this.list.count <= this.most;
    for (let next = 0; within && next < this.tables.visits.length && this.sequence.length < LONGEST; next++) {
      if (this.sequence.includes(next) || !this.mayFollow(route, next)) continue;
      const timings = this.follow(route, next);
      if (timings.length === 0) continue;
      const inner = route.inner + this.tables.drive[route.last * this.tables.visits.length + next]!;
      const work = route.work + this.tables.visits[next]!.durationMinutes;
      within = this.extend(next, { last: next, inner, work, crew: route.crew ?? this.tables.fixedCrew[next]!, timings });
    }
    this.sequence.pop();
    return within;
  }

  /** Same size of crew, same fixed crew, what began comes first, and no drive that the shortlist cuts. */
  private mayFollow({ last, crew }: Partial, next: number): boolean {
    const { visits, fixedCrew, drive } = this.tables;
    const [before, after, fixed] = [visits[last]!, visits[next]!, fixedCrew[next]!];
    if (before.crewSize !== after.crewSize || (after.underWay && !before.underWay)) return false;
    if (drive[last * visits.length + next]! > this.shortlist.longestDrive) return false;
    return crew === null || fixed === null || (crew[0] === fixed[0] && crew[1] === fixed[1]);
  }
}

/**
 * Enumerates the routes; null when there are more than `most`. A start vector is left out only when another is at least as
 * cheap for every person (see timing.ts).
 */
export function enumerateRoutes(tables: Tables, most: number, shortlist: Shortlist): Routes | null {
  const enumeration = new Enumeration(tables, most, shortlist);
  return enumeration.run() ? enumeration.list.done() : null;
}
