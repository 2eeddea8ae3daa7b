// What happened to a callback after somebody looked at it.
import type { Reader } from '../database.ts';

export type LaterEvent = { kind: string; actorId: string | null; actor: string | null };

/** Events after the one with the number `seq`, in their order. */
export const eventsSince = (reader: Reader, callbackId: string, seq: number): Promise<LaterEvent[]> =>
  reader.rows<LaterEvent>(
    `SELECT e.kind, e.actor_id::text AS "actorId", p.name AS actor FROM callback_event e LEFT JOIN person p ON p.id = e.actor_id
     WHERE e.callback_id = $1::uuid AND e.seq > $2::int ORDER BY e.seq`,
    [callbackId, seq],
  );
