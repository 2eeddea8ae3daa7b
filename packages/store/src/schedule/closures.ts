// Times closed for weather: a part of the county or all of it, every visit or outdoor work alone.
import { touched, type Reader, type Tx } from '../database.ts';

export type ClosureRow = {
  id: string;
  startsAt: Date;
  endsAt: Date;
  outdoorOnly: boolean;
  /** Empty = everywhere. */
  towns: string[];
  reason: string;
  recordedAt: Date;
  recordedBy: string;
};

const CLOSURE = `SELECT c.id::text AS id, c.starts_at AS "startsAt", c.ends_at AS "endsAt", c.outdoor_only AS "outdoorOnly", coalesce(c.towns, '{}') AS towns, c.reason, c.recorded_at AS "recordedAt", w.name AS "recordedBy"
  FROM weather_closure c JOIN person w ON w.id = c.recorded_by WHERE c.lifted_at IS NULL`;

/** Closures in force that touch a span. */
export const closuresBetween = (reader: Reader, from: Date, until: Date): Promise<ClosureRow[]> =>
  reader.rows<ClosureRow>(`${CLOSURE} AND c.starts_at < $2::timestamptz AND c.ends_at > $1::timestamptz ORDER BY c.starts_at, c.id`, [
    from.toISOString(),
    until.toISOString(),
  ]);

export const findClosure = async (reader: Reader, id: string): Promise<ClosureRow | null> =>
  (await reader.rows<ClosureRow>(`${CLOSURE} AND c.id = $1::uuid`, [id]))[0] ?? null;

export async function insertClosure(tx: Tx, c: Omit<ClosureRow, 'recordedBy'> & { recordedBy: string }): Promise<void> {
  await tx.db.weatherClosure.create({ data: c });
}

/** Lifts a closure; answers whether it was in force. */
export const liftClosure = async (tx: Tx, id: string, at: Date): Promise<boolean> =>
  (await touched(
    tx,
    'UPDATE weather_closure SET lifted_at = $2::timestamptz WHERE id = $1::uuid AND lifted_at IS NULL',
    id,
    at.toISOString(),
  )) > 0;
