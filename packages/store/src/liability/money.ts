// Money of callbacks: by day in the books, by the rows behind a sum, and what is set aside now.
import { incurred, type CallbackMoney } from '@backsight/domain/callbacks/money';
import type { Flow } from '@backsight/domain/liability/cash';
import { execute, type Reader, type Tx } from '../database.ts';

/** Days are ISO days, both included; null is open. */
export type Days = { from: string | null; to: string | null };
type Sums = Omit<CallbackMoney, 'incurredCents'>;
/** Paid is what left the bank beside what came back; reversed entries cancel themselves. */
const MONEY_SUMS = `coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0)::bigint AS "paidCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0)::bigint AS "reservedCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'recoveries'), 0)::bigint AS "recoveredCents"`;
const whole = <T extends Sums>(row: T): T & CallbackMoney => ({ ...row, incurredCents: incurred(row) });

/** Lines of callbacks that are for the owner alone, by day, with the sign turned: what somebody else does not see is taken off. */
const HIDDEN = `SELECT e.happened_on, CASE WHEN l.account IN ('bank', 'recoveries') THEN l.cents ELSE 0 END, CASE WHEN l.account = 'callback-reserve' THEN l.cents ELSE 0 END,
    CASE WHEN l.account = 'recoveries' THEN l.cents ELSE 0 END
  FROM callback c JOIN ledger_line l ON l.callback_id = c.id JOIN ledger_entry e ON e.id = l.entry_id WHERE c.owner_only`;

/** Sums of all callback lines within each span of days of the books, in the order asked for. */
export async function moneyWithin(reader: Reader, spans: readonly Days[], seeOwnerOnly: boolean): Promise<CallbackMoney[]> {
  const rows = await reader.rows<Sums>(
    `WITH by_day AS (SELECT day, paid, reserved, recovered FROM money_by_day ${seeOwnerOnly ? '' : `UNION ALL ${HIDDEN}`})
     SELECT coalesce(sum(d.paid), 0)::bigint AS "paidCents", coalesce(sum(d.reserved), 0)::bigint AS "reservedCents", coalesce(sum(d.recovered), 0)::bigint AS "recoveredCents"
     FROM unnest($1::date[], $2::date[]) WITH ORDINALITY AS s("from", "to", n) LEFT JOIN by_day d ON (s."from" IS NULL OR d.day >= s."from") AND (s."to" IS NULL OR d.day <= s."to") GROUP BY s.n ORDER BY s.n`,
    [spans.map(({ from }) => from), spans.map(({ to }) => to)],
  );
  return rows.map(whole);
}

/** Entries of the ledger by callback. `inspected`: month (YYYY-MM) of the inspection, or, where there was none, in which the job was booked. */
export type EntryFilter = Days & { inspected: string | null; seeOwnerOnly: boolean };
export type MoneyRow = {
  entryId: string;
  kind: string;
  happenedOn: string;
  recordedAt: Date;
  memo: string;
  by: string | null;
  callbackId: string;
  callbackNumber: number;
  jobId: string;
  jobNumber: number;
} & CallbackMoney;

const MONTH_OF = `to_char(coalesce((SELECT min(v.starts_at) AT TIME ZONE o.zone FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') AND j.kind = 'inspection'),
  j.recorded_at AT TIME ZONE (SELECT zone FROM firm)), 'YYYY-MM')`;
/** Ids of callbacks about jobs of the month $3; jobs near that month are looked at, two days being more than any zone is off. */
export const OF_MONTH = `SELECT c.id FROM (
    SELECT v.job_id FROM visit v WHERE v.starts_at >= ($3 || '-01')::date - 2 AND v.starts_at < ($3 || '-01')::date + interval '1 month 2 days' AND v.state IN ('on_site', 'done')
    UNION SELECT j.id FROM job j WHERE j.recorded_at >= ($3 || '-01')::date - 2 AND j.recorded_at < ($3 || '-01')::date + interval '1 month 2 days') near
  JOIN callback c ON c.job_id = near.job_id JOIN job j ON j.id = c.job_id JOIN office o ON o.id = j.office_id WHERE ${MONTH_OF} = $3`;
const paramsOf = ({ from, to, inspected, seeOwnerOnly }: EntryFilter) => [
  from,
  to,
  ...(inspected === null ? [] : [inspected]),
  seeOwnerOnly,
];
const mine = (inspected: string | null): string =>
  `${inspected === null ? 'l.callback_id IS NOT NULL' : `l.callback_id IN (${OF_MONTH})`} AND ($${inspected === null ? 3 : 4}::boolean OR NOT EXISTS (SELECT FROM callback h WHERE h.id = l.callback_id AND h.owner_only))`;
const IN_DAYS = `($1::date IS NULL OR e.happened_on >= $1::date) AND ($2::date IS NULL OR e.happened_on <= $2::date)`;

/** Newest day of the books first; `after` is the id of the last entry of the page before; `limit`: null is all. */
export async function moneyRows(reader: Reader, filter: EntryFilter, after: string | null, limit: number | null): Promise<MoneyRow[]> {
  const params = paramsOf(filter);
  const [cursor, most] = [`$${params.length + 1}`, `$${params.length + 2}`];
  const rows = await reader.rows<Omit<MoneyRow, 'incurredCents'>>(
    `WITH page AS MATERIALIZED (
       SELECT e.id, e.kind, e.happened_on, e.recorded_at, e.memo, e.actor_id FROM ledger_entry e
       WHERE ${IN_DAYS} AND EXISTS (SELECT FROM ledger_line l WHERE l.entry_id = e.id AND ${mine(filter.inspected)})
         AND (${cursor}::uuid IS NULL OR (e.happened_on, e.id) < (SELECT b.happened_on, b.id FROM ledger_entry b WHERE b.id = ${cursor}::uuid))
       ORDER BY e.happened_on DESC, e.id DESC LIMIT ${most}::int)
     SELECT e.id::text AS "entryId", e.kind, e.happened_on::text AS "happenedOn", e.recorded_at AS "recordedAt", e.memo, p.name AS by, c.id::text AS "callbackId", c.number AS "callbackNumber",
       j.id::text AS "jobId", j.number AS "jobNumber", ${MONEY_SUMS}
     FROM page e JOIN ledger_line l ON l.entry_id = e.id JOIN callback c ON c.id = l.callback_id JOIN job j ON j.id = c.job_id LEFT JOIN person p ON p.id = e.actor_id
     GROUP BY e.id, e.kind, e.happened_on, e.recorded_at, e.memo, p.name, c.id, j.id ORDER BY e.happened_on DESC, e.id DESC, c.number`,
    [...params, after, limit],
  );
  return rows.map(whole);
}

/** Sums of callbacks about jobs of one month, of all days asked for. */
export async function moneyOfMonth(reader: Reader, filter: EntryFilter & { inspected: string }): Promise<CallbackMoney> {
  const [row] = await reader.rows<Sums>(
    `SELECT ${MONEY_SUMS} FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE ${IN_DAYS} AND ${mine(filter.inspected)}`,
    paramsOf(filter),
  );
  return whole(row!);
}

/** What figures hold of callbacks that are for the owner alone, to be taken off for others. */
export type Hidden = { measure: 'callbacks' | 'paid' | 'reserved' | 'recovered'; origin: string; known: string; amount: number };
export const hiddenFigures = (reader: Reader): Promise<Hidden[]> =>
  reader.rows<Hidden>(
    `WITH hidden AS (SELECT c.id, c.kind, c.duplicate_of, c.recorded_at, ${MONTH_OF} AS origin FROM callback c JOIN job j ON j.id = c.job_id JOIN office o ON o.id = j.office_id WHERE c.owner_only),
       every AS (
         SELECT 'callbacks' AS measure, origin, recorded_at AS at, 1 AS amount FROM hidden WHERE kind NOT IN ('question', 'near_miss') AND duplicate_of IS NULL
         UNION ALL
         SELECT m.measure, h.origin, e.recorded_at, -l.cents FROM hidden h JOIN ledger_line l ON l.callback_id = h.id JOIN ledger_entry e ON e.id = l.entry_id
           JOIN (VALUES ('bank', 'paid'), ('recoveries', 'paid'), ('recoveries', 'recovered'), ('callback-reserve', 'reserved')) m(account, measure) ON m.account = l.account)
     SELECT measure, origin, to_char(at AT TIME ZONE (SELECT zone FROM firm), 'YYYY-MM') AS known, sum(amount)::bigint AS amount FROM every GROUP BY 1, 2, 3`,
  );

/** Money set aside for open callbacks, and since which day without a break. */
export type OpenReserve = { callbackId: string; number: number; kind: string; state: string; cents: number; since: string };
export const openReserves = (reader: Reader, seeOwnerOnly: boolean): Promise<OpenReserve[]> =>
  reader.rows<OpenReserve>(
    `WITH run AS (
       SELECT c.id, c.number, c.kind, c.state, d.happened_on, sum(d.cents) OVER (PARTITION BY c.id ORDER BY d.happened_on) AS stands
       FROM callback c CROSS JOIN LATERAL (SELECT e.happened_on, -sum(l.cents) AS cents FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id
         WHERE l.callback_id = c.id AND l.account = 'callback-reserve' GROUP BY e.happened_on) d
       WHERE c.state <> 'closed' AND ($1::boolean OR NOT c.owner_only)),
     last AS (SELECT DISTINCT ON (id) id, number, kind, state, stands FROM run ORDER BY id, happened_on DESC)
     SELECT id::text AS "callbackId", number, kind, state, stands::bigint AS cents,
       (SELECT min(r.happened_on) FROM run r WHERE r.id = last.id AND r.happened_on > coalesce((SELECT max(z.happened_on) FROM run z WHERE z.id = last.id AND z.stands <= 0), '-infinity'))::text AS since
     FROM last WHERE stands > 0 ORDER BY stands DESC, number`,
    [seeOwnerOnly],
  );

/** Everything that was ever set aside for callbacks or paid, by callback and day of the books: read at night only. */
export const moneyFlows = (reader: Reader): Promise<Flow[]> =>
  reader.rows<Flow>(
    `SELECT l.callback_id::text AS "callbackId", e.happened_on::text AS day, coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0)::int AS reserved,
       coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0)::int AS paid
     FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE l.callback_id IS NOT NULL GROUP BY 1, 2`,
  );

export const storedCashHistory = async (reader: Reader): Promise<unknown> =>
  (await reader.rows<{ body: unknown }>('SELECT body FROM cash_history'))[0]?.body ?? null;

/** Sums anew the money recorded before `until`, and keeps how cash used to leave. */
export async function rebuildMoney(tx: Tx, until: Date, history: unknown): Promise<void> {
  await execute(tx, 'DELETE FROM money_day');
  await execute(
    tx,
    `INSERT INTO money_day SELECT e.happened_on, coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0), coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0),
       coalesce(-sum(l.cents) FILTER (WHERE l.account = 'recoveries'), 0)
     FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE l.callback_id IS NOT NULL AND e.recorded_at < $1::timestamptz GROUP BY 1`,
    until.toISOString(),
  );
  await execute(
    tx,
    'INSERT INTO cash_history (body) VALUES ($1::jsonb) ON CONFLICT (id) DO UPDATE SET body = excluded.body',
    JSON.stringify(history),
  );
}
