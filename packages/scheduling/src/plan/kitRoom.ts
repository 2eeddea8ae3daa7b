// How many pieces of each pool of kit the crews of a plan can be given.
import { inService, piecesOf } from '../kit.ts';
import { dayIndex, daysOf } from './days.ts';
import type { Member } from './members.ts';
import type { PlanInput, PlanPerson } from './model.ts';
import type { Strict } from './stricter.ts';

/** How often each person could need a piece anew that day: once for every stretch or visit with kit after the first. */
function turnsOf(input: PlanInput, people: readonly PlanPerson[], members: readonly Member[], index: number): Map<string, number> {
  const turns = new Map<string, number>();
  const add = (id: string) => turns.set(id, (turns.get(id) ?? -1) + 1);
  for (const { person, from } of members) if (dayIndex(from) === index) add(people[person]!.id);
  for (const { day, kit, personIds } of input.around ?? []) if (day === daysOf(input)[index] && kit.length > 0) personIds.forEach(add);
  return turns;
}

/** The most that the search could count twice of a pool: pieces of people who wear that size, else of pairs or of whoever goes alone. */
function repeats(input: PlanInput, pool: string, turns: ReadonlyMap<string, number>): number {
  const takes = (kit: readonly string[], crew: readonly string[]) => piecesOf(input, kit, crew).some((piece) => piece.pool === pool);
  const everybody = input.people.map(({ id }) => id);
  const demand = input.visits.filter(({ kit }) => takes(kit, everybody));
  const again = demand.length + (input.around ?? []).filter(({ kit }) => takes(kit, everybody)).length - 1;
  if (again <= 0) return 0;
  const worn = input.kit.some(({ kind, worn: what }) => kind === pool && what !== undefined);
  const kinds = [...new Set(demand.flatMap(({ kit }) => kit))];
  const sum = [...turns].reduce((all, [id, turn]) => (!worn || takes(kinds, [id]) ? all + Math.min(turn, again) : all), 0);
  const inPairs = !worn && demand.every(({ crewSize }) => crewSize === 2);
  return worn ? sum : Math.min(again, inPairs ? sum >> 1 : sum);
}

/**
 * Limits day by day, pool by pool. Booking counts a piece once for who has it that day; the search counts it for every stretch,
 * which forbids too much. Unless it is to be strict, the room for such repeats is added, which forbids too little.
 */
export function kitRoom(
  input: PlanInput,
  pools: readonly string[],
  { people, members }: { people: readonly PlanPerson[]; members: readonly Member[] },
  { taken, strict }: { taken: ReadonlyMap<string, number>; strict: Strict },
): number[] {
  return daysOf(input).flatMap((day, index) => {
    const turns = turnsOf(input, people, members, index);
    return pools.map((pool) => {
      const owned = inService(input, pool, day);
      const left = Math.max(0, owned - (taken.get(`${day}|${pool}`) ?? 0));
      return owned === 0 || strict.kit ? left : left + repeats(input, pool, turns);
    });
  });
}
