// Which moves hang together: two moves are linked when one made without the other could put a person in two places, or when
// they could share out kit that is short.
import { inService, piecesOf } from '../kit.ts';
import type { Travel } from '../travel.ts';
import { dayAndMinute } from './days.ts';
import { stretchesOfPerson } from './members.ts';
import type { Member } from './members.ts';
import type { Placement, PlanInput, PlanMove, PlanVisit } from './model.ts';

type At = { visit: PlanVisit; placement: Placement };

const crewOf = ({ first, second }: Placement): string[] => (second === null ? [first] : [first, second]);

/** Whether one person can do both. */
function fit(a: At, b: At, travel: Travel): boolean {
  const [early, late] = a.placement.start <= b.placement.start ? [a, b] : [b, a];
  const ready = early.placement.start + early.visit.durationMinutes;
  return ready + travel.minutes(early.visit.place, late.visit.place) <= late.placement.start;
}

function clash(a: At | null, b: At | null, travel: Travel): boolean {
  if (a === null || b === null) return false;
  const shared = crewOf(a.placement).some((id) => crewOf(b.placement).includes(id));
  return shared && !fit(a, b, travel);
}

/** Whether everybody of the crew could do it as the only visit of a stretch. */
function standsAlone({ visit, placement }: At, stretches: (id: string) => Omit<Member, 'person'>[], travel: Travel): boolean {
  const { start } = placement;
  const end = start + visit.durationMinutes;
  return crewOf(placement).every((id) =>
    stretches(id).some(({ origin, destination, from, closes, until }) => {
      const leaves = start - travel.minutes(origin, visit.place);
      return from <= leaves && end <= closes && end + travel.minutes(visit.place, destination) <= until;
    }),
  );
}

/** Sets that grow together. */
class Unions {
  private readonly parent: number[];

  constructor(size: number) {
    this.parent = Array.from({ length: size }, (_, at) => at);
  }

  find(at: number): number {
    const parent = this.parent[at]!;
    return parent === at ? at : (this.parent[at] = this.find(parent));
  }

  join(a: number, b: number): void {
    this.parent[this.find(a)] = this.find(b);
  }
}

/** Pools of kit that could run short if only some moves were made. */
function scarceKit(input: PlanInput, moves: readonly PlanMove[]): Set<string> {
  const after = new Map(moves.map((move) => [move.visitId, move.after]));
  const holders = new Map<string, { pool: string; day: string; set: Set<string> }>();
  const note = (visit: PlanVisit, placement: Placement) => {
    const { day } = dayAndMinute(input.day, placement.start);
    for (const { pool, holder } of piecesOf(input, visit.kit, crewOf(placement))) {
      const known = holders.get(`${day}|${pool}`) ?? { pool, day, set: new Set<string>() };
      known.set.add(holder);
      holders.set(`${day}|${pool}`, known);
    }
  };
  for (const visit of input.visits) {
    for (const placement of [visit.current, after.get(visit.id)]) {
      if (placement) note(visit, placement);
    }
  }
  return new Set([...holders.values()].filter(({ pool, day, set }) => set.size > inService(input, pool, day)).map(({ pool }) => pool));
}

/** The moves in groups; moves of different groups cannot clash. */
export function linkedMoves(input: PlanInput, moves: readonly PlanMove[], travel: Travel): PlanMove[][] {
  const visits = new Map(input.visits.map((visit) => [visit.id, visit]));
  const people = new Map(input.people.map((person) => [person.id, person]));
  const known = new Map<string, Omit<Member, 'person'>[]>();
  const stretches = (id: string) => {
    const before = known.get(id);
    if (before) return before;
    const person = people.get(id);
    const list = person ? stretchesOfPerson(input, person, travel) : [];
    known.set(id, list);
    return list;
  };
  const at = ({ visitId }: PlanMove, placement: Placement | null): At | null =>
    placement ? { visit: visits.get(visitId)!, placement } : null;
  const scarce = scarceKit(input, moves);
  const sides = moves.map((move) => {
    const [before, after] = [at(move, move.before), at(move, move.after)];
    const alone = [before, after].every((one) => one === null || standsAlone(one, stretches, travel));
    const all = [before, after].flatMap((one) => (one ? crewOf(one.placement) : []));
    const pieces = [before, after].flatMap((one) => (one ? piecesOf(input, one.visit.kit, crewOf(one.placement)) : []));
    return { before, after, alone, people: new Set(all), kit: pieces.map(({ pool }) => pool).filter((pool) => scarce.has(pool)) };
  });
  const unions = new Unions(moves.length);
  sides.forEach((a, i) => {
    sides.slice(i + 1).forEach((b, j) => {
      const mixed = clash(a.before, b.after, travel) || clash(a.after, b.before, travel);
      const leans = (!a.alone || !b.alone) && [...a.people].some((id) => b.people.has(id));
      if (mixed || leans || a.kit.some((pool) => b.kit.includes(pool))) unions.join(i, i + j + 1);
    });
  });
  const groups = new Map<number, PlanMove[]>();
  moves.forEach((move, i) => groups.set(unions.find(i), [...(groups.get(unions.find(i)) ?? []), move]));
  return [...groups.values()];
}
