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

/** Who has a piece of a pool, among the visits of one day. */
export const carriers = (world: Kit, visits: readonly Busy[], pool: string): Set<string> =>
  new Set(
    visits
      .filter(({ kit }) => kit.length > 0)
      .flatMap((visit) => piecesOf(world, visit.kit, visit.personIds))
      .filter((piece) => piece.pool === pool)
      .map(({ holder }) => holder),
  );

/** Pools of which no piece is left for this crew on the day; `visits` are the other visits of that day. */
export function kitShort(world: World, visits: readonly Busy[], kinds: readonly string[], crew: readonly string[], day: Day): string[] {
  const pieces = piecesOf(world, kinds, crew);
  return [...new Set(pieces.map(({ pool }) => pool))].filter((pool) => {
    const holders = carriers(world, visits, pool);
    for (const piece of pieces) if (piece.pool === pool) holders.add(piece.holder);
    return holders.size > inService(world, pool, day);
  });
}

/** Which crews can be given the kit, and who could in some crew. */
export type KitGate = { crew: (ids: readonly string[]) => boolean; member: (id: string) => boolean };

type Scarce = { pool: string; worn: boolean; carrying: ReadonlySet<string>; left: number };

/** Pools that not every crew can be given; of what is worn, a piece must be left for each of two people. */
function scarceOf(world: World, visits: readonly Busy[], kinds: readonly string[], day: Day): Scarce[] {
  const plain = kinds.filter((kind) => !isWorn(world.kit, kind));
  const sizes = kinds.flatMap((kind) => (plain.includes(kind) ? [] : world.people.map(({ sizes: own }) => wornPool(kind, own?.[kind]))));
  const counted = (pool: string, worn: boolean): Scarce => {
    const carrying = carriers(world, visits, pool);
    return { pool, worn, carrying, left: inService(world, pool, day) - carrying.size };
  };
  return [
    ...[...new Set(piecesOf(world, plain, []).map(({ pool }) => pool))].map((pool) => counted(pool, false)),
    ...[...new Set(sizes)].map((pool) => counted(pool, true)),
  ].filter(({ worn, left }) => left < (worn ? 2 : 1));
}

/** The kit of a day counted once for many crews; null when every crew can be given it. */
export function kitGate(world: World, visits: readonly Busy[], kinds: readonly string[], day: Day): KitGate | null {
  const scarce = kinds.length === 0 ? [] : scarceOf(world, visits, kinds, day);
  if (scarce.length === 0) return null;
  const people = new Map(world.people.map((person) => [person.id, person]));
  const enough = (ids: readonly string[], pools: readonly Scarce[]): boolean => {
    const known = { kit: world.kit, people: ids.flatMap((id) => people.get(id) ?? []) };
    const pieces = piecesOf(known, kinds, ids);
    return pools.every(({ pool, carrying, left }) => {
      const own = pieces.filter((piece) => piece.pool === pool);
      return own.length === 0 || (left >= 0 && own.filter(({ holder }) => !carrying.has(holder)).length <= left);
    });
  };
  const [plain, worn] = [scarce.filter((one) => !one.worn), scarce.filter((one) => one.worn)];
  const withKit = (id: string, { carrying, left }: Scarce): boolean =>
    left > 0 || (left >= 0 && [...carrying].some((crew) => crew.split('|').includes(id)));
  return {
    crew: (ids) => enough(ids, scarce),
    member: (id) => plain.every((one) => withKit(id, one)) && (worn.length === 0 || enough([id], worn)),
  };
}
