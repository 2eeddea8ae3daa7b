// What happened to callbacks between two days, and what stood open at the end of the last.
import type { Reader } from '../database.ts';

/** ISO days, both included. */
export type Quarter = { from: string; to: string };
const ZONE = `(SELECT zone FROM firm)`;
const within = (column: string): string => `(${column} AT TIME ZONE ${ZONE})::date BETWEEN $1::date AND $2::date`;
const COUNTS = `c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL`;

export type ReceivedRow = { system: string; callbacks: number };
/** Callbacks that count, received in the quarter, by what they are about. */
export const receivedIn = (reader: Reader, { from, to }: Quarter): Promise<ReceivedRow[]> =>
  reader.rows<ReceivedRow>(
    `SELECT c.system, count(*)::int AS callbacks FROM callback c WHERE ${within('c.received_at')} AND ${COUNTS} GROUP BY 1 ORDER BY 2 DESC, 1`,
    [from, to],
  );

/** Open at the end of the last day, and closed within the quarter (each callback once). */
export async function openAtEnd(reader: Reader, { from, to }: Quarter): Promise<{ open: number; closed: number }> {
  const [row] = await reader.rows<{ open: number; closed: number }>(
    `WITH last AS (SELECT DISTINCT ON (e.callback_id) e.callback_id, e.kind, (e.happened_at AT TIME ZONE ${ZONE})::date AS day FROM callback_event e
         WHERE e.kind IN ('closed', 'reopened') AND (e.happened_at AT TIME ZONE ${ZONE})::date <= $2::date ORDER BY e.callback_id, e.seq DESC)
     SELECT count(*) FILTER (WHERE l.kind IS DISTINCT FROM 'closed')::int AS open, count(*) FILTER (WHERE l.kind = 'closed' AND l.day >= $1::date)::int AS closed
     FROM callback c LEFT JOIN last l ON l.callback_id = c.id WHERE (c.received_at AT TIME ZONE ${ZONE})::date <= $2::date AND ${COUNTS}`,
    [from, to],
  );
  return row!;
}

export type DecisionRow = { kind: string; decision: string; times: number; cents: number };
/** Decisions on remedies, by kind and what was decided. */
export const decisionsIn = (reader: Reader, { from, to }: Quarter): Promise<DecisionRow[]> =>
  reader.rows<DecisionRow>(
    `SELECT r.kind, a.decision, count(*)::int AS times, sum(r.cents)::bigint AS cents FROM remedy_approval a JOIN remedy r ON r.id = a.remedy_id WHERE ${within('a.happened_at')} GROUP BY 1, 2 ORDER BY 1, 2`,
    [from, to],
  );

export type ActionRow = { number: number; title: string; kind: string; event: string; day: string; result: string | null };
/** Corrective actions that were decided, done, dropped, opened again or reviewed. */
export const actionsIn = (reader: Reader, { from, to }: Quarter): Promise<ActionRow[]> =>
  reader.rows<ActionRow>(
    `SELECT a.number, a.title, a.kind, e.kind AS event, (e.happened_at AT TIME ZONE ${ZONE})::date::text AS day, e.details->>'result' AS result FROM corrective_action_event e JOIN corrective_action a ON a.id = e.action_id
     WHERE e.kind IN ('decided', 'done', 'dropped', 'recurred', 'reviewed') AND ${within('e.happened_at')} ORDER BY e.happened_at, a.number, e.seq`,
    [from, to],
  );
