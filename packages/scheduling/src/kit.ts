// Kit pools: pieces are loaded in the morning, so they are counted per crew and day, not per hour; what is worn, per person and day.
import type { Day } from './time.ts';
import type { Busy, KitPool, World } from './world.ts';

type Kit = Pick<World, 'kit' | 'people'>;

/** Name of a crew that does not depend on the order of its members. */
export const crewKey = (ids: readonly string[]): string => [...ids].sort().join('|');

/** Name of the pool of one size of something worn; nobody whose size is not on file can be given a piece. */
export const wornPool = (kind: string, size: string | undefined): string => `${kind}, ${size ? `size ${size}` : 'no size on file'}`;

const isWorn = (kit: readonly KitPool[], kind: string): boolean => kit.some((pool) => pool.worn === kind);

/** Pieces of a pool in service on a day; 0 for a kind the firm does not own. */
export function inService(world: Pick<World, 'kit'>, pool: string, day: Day): number {
  const found = world.kit.find((one) => one.kind === pool);
  if (!found) return 0;
  const out = found.outOfService.filter((one) => one.from <= day && (one.until === undefined || day <= one.until));
  return found.count - out.reduce((sum, one) => sum + one.count, 0);
}

/** The words for a pool. */
export const poolName = (world: Pick<World, 'kit'>, pool: string): string => world.kit.find((one) => one.kind === pool)?.name ?? pool;

export type Piece = { pool: string; /** A crew, or a person for what is worn. */ holder: string };

/**
 * What a crew takes along for these kinds: one piece for the crew, of what is worn one for each member in his size. A piece
 * of at least some length is one of its kind too: lengths lie within each other, so that counting each is enough.
 */
export const piecesOf = ({ kit, people }: Kit, kinds: readonly string[], crew: readonly string[]): Piece[] =>
  kinds.flatMap((kind) => {
    if (isWorn(kit, kind))
      return crew.map((holder) => ({ pool: wornPool(kind, people.find(({ id }) => id === holder)?.sizes?.[kind]), holder }));
    const holder = crewKey(crew);
    const { of } = kit.find((pool) => pool.kind === kind) ?? {};
    return of === undefined ? [{ pool: kind, holder }] : [kind, of].map((pool) => ({ pool, holder }));
  });

/** Who has a piece of each pool, among the visits of one day. */
function holders(world: Kit, visits: readonly Busy[]): Map<string, Set<string>> {
  const of = new Map<string, Set<string>>();
  for (const { kit, personIds } of visits) {
    if (kit.length === 0) continue;
    for (const { pool, holder } of piecesOf(world, kit, personIds)) {
      const known = of.get(pool);
      if (known) known.add(holder);
      else of.set(pool, new Set([holder]));
    }
  }
  return of;
}

/** Who has a piece of a pool, among the visits of one day. */
export const carriers = (world: Kit, visits: readonly Busy[], pool: string): Set<string> => holders(world, visits).get(pool) ?? new Set();

/** Pools of which no piece is left for this crew on the day; `visits` are the other visits of that day. */
export function kitShort(world: World, visits: readonly Busy[], kinds: readonly string[], crew: readonly string[], day: Day): string[] {
  const pieces = piecesOf(world, kinds, crew);
  const held = holders(world, visits);
  return [...new Set(pieces.map(({ pool }) => pool))].filter((pool) => {
    const own = pieces.filter((piece) => piece.pool === pool).map(({ holder }) => holder);
    return new Set([...(held.get(pool) ?? []), ...own]).size > inService(world, pool, day);
  });
}

/** Which crews can be given the kit, and who could in some crew. */
export type KitGate = { crew: (ids: readonly string[]) => boolean; member: (id: string) => boolean };

/** `wearers`: who would wear a piece of it; null for what a crew takes one piece of. */
type Scarce = { pool: string; wearers: ReadonlySet<string> | null; carrying: ReadonlySet<string>; left: number };

/** Everybody by the size of one kind of what is worn. */
function wearersOf({ people }: Kit, kind: string): Map<string, Set<string>> {
  const of = new Map<string, Set<string>>();
  for (const { id, sizes } of people) {
    const pool = wornPool(kind, sizes?.[kind]);
    of.set(pool, (of.get(pool) ?? new Set<string>()).add(id));
  }
  return of;
}

/** Pools that not every crew can be given; of what is worn, a piece must be left for each of two people. */
function scarceOf(world: World, visits: readonly Busy[], kinds: readonly string[], day: Day): Scarce[] {
  const plain = kinds.filter((kind) => !isWorn(world.kit, kind));
  const worn = [...new Set(kinds)].filter((kind) => !plain.includes(kind));
  const held = holders(world, visits);
  const counted = (pool: string, wearers: Scarce['wearers']): Scarce => {
    const carrying = held.get(pool) ?? new Set<string>();
    return { pool, wearers, carrying, left: inService(world, pool, day) - carrying.size };
  };
  return [
    ...[...new Set(piecesOf(world, plain, []).map(({ pool }) => pool))].map((pool) => counted(pool, null)),
    ...worn.flatMap((kind) => [...wearersOf(world, kind)].map(([pool, wearers]) => counted(pool, wearers))),
  ].filter(({ wearers, left }) => left < (wearers ? 2 : 1));
}

/** Asked of every pair of every day, so that what does not depend on the crew is counted before. Null when every crew can be given the kit. */
export function kitGate(world: World, visits: readonly Busy[], kinds: readonly string[], day: Day): KitGate | null {
  const scarce = kinds.length === 0 ? [] : scarceOf(world, visits, kinds, day);
  if (scarce.length === 0) return null;
  const plain = scarce.filter(({ wearers }) => wearers === null);
  const worn = scarce.filter(({ wearers }) => wearers !== null);
  // Of these nothing is left: only a crew that has its piece already can go.
  const taken = (ids: readonly string[]): boolean => {
    if (plain.length === 0) return true;
    const key = crewKey(ids);
    return plain.every(({ carrying, left }) => left >= 0 && carrying.has(key));
  };
  const dressed = (ids: readonly string[]): boolean =>
    worn.every(({ wearers, carrying, left }) => {
      const own = ids.filter((id) => wearers!.has(id));
      return own.length === 0 || (left >= 0 && own.filter((id) => !carrying.has(id)).length <= left);
    });
  const inSome = (id: string, { carrying, left }: Scarce): boolean =>
    left >= 0 && [...carrying].some((crew) => crew.split('|').includes(id));
  return {
    crew: (ids) => taken(ids) && dressed(ids),
    member: (id) => plain.every((one) => inSome(id, one)) && dressed([id]),
  };
}
