// What leaves for an actuary or a spreadsheet: every entry of money about callbacks, and every callback with its days. No names, no opinions.
import type { Reader } from '../database.ts';

export type TransactionRow = {
  callback: number;
  kind: string;
  happenedOn: string;
  recordedOn: string;
  receivedOn: string;
  inspectedOn: string | null;
  policy: string | null;
  paidCents: number;
  reservedCents: number;
  recoveredCents: number;
};

const ZONE = `(SELECT zone FROM firm)`;

/** In the order of the books; amounts are changes, so that their sums are what the ledger says. */
export const transactions = (reader: Reader, { seeOwnerOnly }: { seeOwnerOnly: boolean }): Promise<TransactionRow[]> =>
  reader.rows<TransactionRow>(
    `SELECT c.number AS callback, e.kind, e.happened_on::text AS "happenedOn", (e.recorded_at AT TIME ZONE ${ZONE})::date::text AS "recordedOn", (c.received_at AT TIME ZONE ${ZONE})::date::text AS "receivedOn",
       i.inspected_on::text AS "inspectedOn", y.number AS policy,
       coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0)::bigint AS "paidCents",
       coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0)::bigint AS "reservedCents",
       coalesce(-sum(l.cents) FILTER (WHERE l.account = 'recoveries'), 0)::bigint AS "recoveredCents"
     FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id JOIN callback c ON c.id = l.callback_id LEFT JOIN insurance_policy y ON y.id = c.policy_id LEFT JOIN inspected_job i ON i.job_id = c.job_id
     WHERE l.callback_id IS NOT NULL AND ($1::boolean OR NOT c.owner_only)
     GROUP BY e.id, e.kind, e.happened_on, e.recorded_at, c.id, c.number, c.received_at, i.inspected_on, y.number ORDER BY e.happened_on, e.recorded_at, e.id, c.number`,
    [seeOwnerOnly],
  );

export type ExtractCallback = {
  callback: number;
  kind: string;
  counts: boolean;
  state: string;
  system: string;
  inspectedOn: string | null;
  receivedOn: string;
  recordedOn: string;
  closedOn: string | null;
  policy: string | null;
};

/** Every callback, by number; `counts`: it is in the counts of triangles (no question, no near-miss, no duplicate). */
export const extractCallbacks = (reader: Reader): Promise<ExtractCallback[]> =>
  reader.rows<ExtractCallback>(
    `SELECT c.number AS callback, c.kind, (c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL) AS counts, c.state, c.system, i.inspected_on::text AS "inspectedOn",
       (c.received_at AT TIME ZONE ${ZONE})::date::text AS "receivedOn", (c.recorded_at AT TIME ZONE ${ZONE})::date::text AS "recordedOn", y.number AS policy,
       CASE WHEN c.state = 'closed' THEN (SELECT (max(e.happened_at) AT TIME ZONE ${ZONE})::date::text FROM callback_event e WHERE e.callback_id = c.id AND e.kind = 'closed') END AS "closedOn"
     FROM callback c LEFT JOIN insurance_policy y ON y.id = c.policy_id LEFT JOIN inspected_job i ON i.job_id = c.job_id ORDER BY c.number`,
  );
