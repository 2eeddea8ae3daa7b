// Several visits that take each other's people and times at once.
import type { Prisma } from '../generated/client.ts';
import type { Reader, Tx } from '../database.ts';

export type VisitMove = {
  id: string;
  version: number;
  startsAt: Date;
  endsAt: Date;
  first: string;
  second: string | null;
  because: unknown;
};

const crewOf = ({ id, startsAt, endsAt, first, second }: VisitMove) =>
  [first, second].flatMap((personId, at) =>
    personId === null ? [] : [{ visitId: id, place: at === 0 ? 'first' : 'second', personId, startsAt, endsAt, live: true }],
  );

/**
 * Gives booked visits other times and crews. All people are let go before any is placed anew, or two visits that exchange
 * somebody would refuse each other. Answers the visits that changed since `version` was seen: then the transaction must not commit.
 */
export async function moveVisits(tx: Tx, moves: readonly VisitMove[]): Promise<string[]> {
  await tx.db.assignment.deleteMany({ where: { visitId: { in: moves.map(({ id }) => id) } } });
  const changed: string[] = [];
  for (const { id, version, startsAt, endsAt, because } of moves) {
    const data = { startsAt, endsAt, because: because as Prisma.InputJsonValue, version: { increment: 1 } };
    const { count } = await tx.db.visit.updateMany({ where: { id, version, state: 'booked' }, data });
    if (count === 0) changed.push(id);
  }
  if (changed.length === 0) await tx.db.assignment.createMany({ data: moves.flatMap(crewOf) });
  return changed;
}

/** Takes a booked visit off the calendar and frees its people, its job stays booked; answers whether it was as it was seen. */
export async function takeOff(tx: Tx, id: string, version: number): Promise<boolean> {
  const data = { state: 'cancelled', live: false, version: { increment: 1 } };
  return (await tx.db.visit.updateMany({ where: { id, version, state: 'booked' }, data })).count > 0;
}

export type PromisedWindow = { from: Date; until: Date } | null;
/** Sets the window that the client was promised (null: the very start); answers whether the visit was as it was seen. Constraint: visit_promise. */
export async function setPromise(tx: Tx, id: string, version: number, window: PromisedWindow): Promise<boolean> {
  const data = { promisedFrom: window?.from ?? null, promisedUntil: window?.until ?? null, version: { increment: 1 } };
  return (await tx.db.visit.updateMany({ where: { id, version }, data })).count > 0;
}

/** Keeps plans from changing a visit, or lets them again; answers whether it was as it was seen. */
export async function setLock(
  tx: Tx,
  id: string,
  version: number,
  lock: { at: Date; by: string; because: string } | null,
): Promise<boolean> {
  const data = { lockedAt: lock?.at ?? null, lockedBy: lock?.by ?? null, lockedBecause: lock?.because ?? null, version: { increment: 1 } };
  return (await tx.db.visit.updateMany({ where: { id, version }, data })).count > 0;
}

export type KeptRow = {
  id: string;
  version: number;
  state: string;
  jobId: string;
  jobNumber: number;
  kindName: string;
  address: string;
  startsAt: Date;
  promisedFrom: Date | null;
  promisedUntil: Date | null;
  lockedAt: Date | null;
  lockedBy: string | null;
  lockedBecause: string | null;
};

/** What plans must keep of a visit. */
export const findKept = async (reader: Reader, id: string): Promise<KeptRow | null> =>
  (
    await reader.rows<KeptRow>(
      `SELECT v.id::text AS id, v.version, v.state, j.id::text AS "jobId", j.number AS "jobNumber", k.name AS "kindName", p.address || ', ' || p.town AS address, v.starts_at AS "startsAt",
        v.promised_from AS "promisedFrom", v.promised_until AS "promisedUntil", v.locked_at AS "lockedAt", w.name AS "lockedBy", v.locked_because AS "lockedBecause"
       FROM visit v JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id JOIN visit_kind k ON k.key = v.kind LEFT JOIN person w ON w.id = v.locked_by WHERE v.id = $1::uuid`,
      [id],
    )
  )[0] ?? null;
