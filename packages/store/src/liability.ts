// What the owner wants to know at any moment: money of callbacks, what is open, and for how long claims may come.
import { incurred, type CallbackMoney } from '@backsight/domain/callbacks/money';
import type { Reader } from './database.ts';
import { STATE_OF } from './state.ts';

/** Paid is what left the bank beside what came back; reversed entries cancel themselves. */
const SUMS = `coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0)::bigint AS "paidCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0)::bigint AS "reservedCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'recoveries'), 0)::bigint AS "recoveredCents"`;
type Sums = Omit<CallbackMoney, 'incurredCents'>;
const whole = <T extends Sums>(row: T): T & CallbackMoney => ({ ...row, incurredCents: incurred(row) });

/** Sums of all callback lines that happened within the days given (both included); null is open. */
export async function moneyBetween(reader: Reader, from: string | null, to: string | null): Promise<CallbackMoney> {
  const [row] = await reader.rows<Sums>(
    `SELECT ${SUMS} FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE l.callback_id IS NOT NULL AND ($1::date IS NULL OR e.happened_on >= $1::date) AND ($2::date IS NULL OR e.happened_on <= $2::date)`,
    [from, to],
  );
  const { paidCents, reservedCents, recoveredCents } = whole(row!);
  return { paidCents, reservedCents, recoveredCents, incurredCents: incurred(row!) };
}

const FIRST_VISIT = `SELECT v.job_id, to_char(min(v.starts_at) AT TIME ZONE o.zone, 'YYYY-MM') AS month, (min(v.starts_at) AT TIME ZONE o.zone)::date AS day
  FROM visit v JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id WHERE v.state IN ('on_site', 'done') AND j.kind = 'inspection' GROUP BY v.job_id, o.zone`;

export type MonthRow = { month: string; jobs: number; callbacks: number } & CallbackMoney;

/** By the month in which the job was inspected, newest first: jobs, callbacks that count, and their money. */
export async function moneyByInspectionMonth(reader: Reader): Promise<MonthRow[]> {
  const rows = await reader.rows<{ month: string; jobs: number; callbacks: number } & Sums>(
    `WITH first_visit AS (${FIRST_VISIT}),
       jobs AS (SELECT month, count(*)::int AS n FROM first_visit GROUP BY month),
       called AS (SELECT coalesce(f.month, '') AS month, count(*)::int AS n FROM callback c LEFT JOIN first_visit f ON f.job_id = c.job_id WHERE c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL GROUP BY 1),
       money AS (SELECT coalesce(f.month, '') AS month, ${SUMS} FROM ledger_line l JOIN callback c ON c.id = l.callback_id LEFT JOIN first_visit f ON f.job_id = c.job_id GROUP BY 1)
     SELECT month, coalesce(jobs.n, 0) AS jobs, coalesce(called.n, 0) AS callbacks, coalesce("paidCents", 0)::bigint AS "paidCents", coalesce("reservedCents", 0)::bigint AS "reservedCents",
       coalesce("recoveredCents", 0)::bigint AS "recoveredCents"
     FROM jobs FULL JOIN called USING (month) FULL JOIN money USING (month) ORDER BY month DESC LIMIT 240`,
  );
  return rows.map(whole);
}

export type OpenRow = { state: string; upTo7: number; upTo30: number; upTo90: number; older: number };

/** Open callbacks (questions and near-misses left out) by state and days since they came in. */
export const openByAge = (reader: Reader, now: Date): Promise<OpenRow[]> =>
  reader.rows<OpenRow>(
    `WITH aged AS (SELECT state, $1::timestamptz - received_at AS age FROM callback WHERE state <> 'closed' AND kind NOT IN ('question', 'near_miss'))
     SELECT state, count(*) FILTER (WHERE age <= '7 days')::int AS "upTo7", count(*) FILTER (WHERE age > '7 days' AND age <= '30 days')::int AS "upTo30",
       count(*) FILTER (WHERE age > '30 days' AND age <= '90 days')::int AS "upTo90", count(*) FILTER (WHERE age > '90 days')::int AS older FROM aged GROUP BY state`,
    [now.toISOString()],
  );

export type WaitingRemedy = {
  remedyId: string;
  callbackId: string;
  number: number;
  kind: string;
  cents: number;
  proposer: string;
  recordedAt: Date;
};
export const remediesWaiting = (reader: Reader, seeOwnerOnly: boolean): Promise<WaitingRemedy[]> =>
  reader.rows<WaitingRemedy>(
    `SELECT r.id::text AS "remedyId", c.id::text AS "callbackId", c.number, r.kind, r.cents, p.name AS proposer, r.recorded_at AS "recordedAt" FROM remedy r JOIN callback c ON c.id = r.callback_id
       JOIN person p ON p.id = r.proposed_by WHERE r.state = 'proposed' AND ($1::boolean OR NOT c.owner_only) ORDER BY r.recorded_at LIMIT 200`,
    [seeOwnerOnly],
  );

/** Starts under an override of the gate since a day, and visits that began before every signature was there. */
export async function startsDespite(reader: Reader, since: string): Promise<{ overrides: number; unsignedStarts: number }> {
  const [row] = await reader.rows<{ overrides: number; unsignedStarts: number }>(
    `SELECT (SELECT count(*)::int FROM gate_override WHERE happened_at >= $1::date) AS overrides,
       (SELECT count(*)::int FROM site_record d JOIN visit v ON v.id = d.visit_id JOIN job j ON j.id = v.job_id WHERE j.kind = 'inspection' AND d.opened_at >= $1::date
          AND NOT EXISTS (SELECT FROM agreement g JOIN signer s ON s.agreement_id = g.id JOIN signature q ON q.signer_id = s.id WHERE g.job_id = j.id AND g.remedy_id IS NULL AND q.happened_at <= d.opened_at)) AS "unsignedStarts"`,
    [since],
  );
  return row!;
}

export type DaysRow = {
  /** State of the house. */
  jurisdiction: string;
  inspectedOn: string | null;
  completedOn: string | null;
  deliveredOn: string | null;
  jobs: number;
};

/** Jobs that took place, counted by the days that claim windows hang on. */
export const claimDays = (reader: Reader): Promise<DaysRow[]> =>
  reader.rows<DaysRow>(
    `WITH first_visit AS (${FIRST_VISIT}),
       papers AS (SELECT r.job_id, min(r.inspected_on) AS inspected, min(r.completed_on) AS completed, (SELECT min(d.delivered_at)::date FROM report_delivery d JOIN report x ON x.id = d.report_id WHERE x.job_id = r.job_id) AS delivered
         FROM report r GROUP BY r.job_id)
     SELECT ${STATE_OF} AS jurisdiction, coalesce(p.inspected, f.day)::text AS "inspectedOn", p.completed::text AS "completedOn", p.delivered::text AS "deliveredOn", count(*)::int AS jobs
     FROM first_visit f JOIN job j ON j.id = f.job_id JOIN property a ON a.id = j.property_id JOIN office o ON o.id = j.office_id LEFT JOIN papers p ON p.job_id = f.job_id GROUP BY 1, 2, 3, 4`,
  );
