// Kit pools: pieces are loaded in the morning, so they are counted per crew and day, not per hour.
import type { Day } from './time.ts';
import type { Busy, World } from './world.ts';

/** Name of a crew that does not depend on the order of its members. */
export const crewKey = (ids: readonly string[]): string => [...ids].sort().join('|');

/** Pieces of a kind in service on a day; 0 for a kind the firm does not own. */
export function inService(world: Pick<World, 'kit'>, kind: string, day: Day): number {
  const pool = world.kit.find((one) => one.kind === kind);
  if (!pool) return 0;
  const out = pool.outOfService.filter((one) => one.from <= day && (one.until === undefined || day <= one.until));
  return pool.count - out.reduce((sum, one) => sum + one.count, 0);
}

/** Crews that carry a kind, among the visits of one day. */
export const carriers = (visits: readonly Busy[], kind: string): Set<string> =>
  new Set(visits.filter((visit) => visit.kit.includes(kind)).map((visit) => crewKey(visit.personIds)));

/** Kinds of which no piece is left for this crew on the day; `visits` are the other visits of that day. */
export function kitShort(world: World, visits: readonly Busy[], kinds: readonly string[], crew: readonly string[], day: Day): string[] {
  return kinds.filter((kind) => {
    const carrying = carriers(visits, kind);
    return carrying.add(crewKey(crew)).size > inService(world, kind, day);
  });
}

/** Which crews still have the kit when no further piece is left: those that carry it already. */
export type KitGate = { crews: ReadonlySet<string>; members: ReadonlySet<string> };

/** The kit of a day counted once for many crews; null when every crew can be given it. */
export function kitGate(world: World, visits: readonly Busy[], kinds: readonly string[], day: Day): KitGate | null {
  const scarce = kinds
    .map((kind) => ({ carrying: carriers(visits, kind), pieces: inService(world, kind, day) }))
    .filter(({ carrying, pieces }) => carrying.size + 1 > pieces);
  if (scarce.length === 0) return null;
  const [first, ...others] = scarce.map(({ carrying, pieces }) => (carrying.size <= pieces ? carrying : new Set<string>()));
  const crews = new Set([...(first ?? [])].filter((crew) => others.every((carrying) => carrying.has(crew))));
  const members = visits.filter((visit) => crews.has(crewKey(visit.personIds))).flatMap((visit) => visit.personIds);
  return { crews, members: new Set(members) };
}
