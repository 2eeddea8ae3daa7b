// What outlooks rest on: the weeks of a year, what callbacks cost, how often a step applies; and the outlooks that were kept.
import { execute, touched, type Reader, type Tx } from '../database.ts';

export type WeekRow = { /** Monday. */ week: string; jobs: number; plannedMinutes: number };

/** Inspections by the week of their first visit, in the office's zone, with the minutes that all visits of the week were planned for. */
const WEEKS = `SELECT date_trunc('week', v.starts_at AT TIME ZONE o.zone)::date AS week, (count(*) FILTER (WHERE NOT EXISTS (
    SELECT FROM visit f WHERE f.job_id = v.job_id AND f.state IN ('on_site', 'done') AND (f.starts_at, f.id) < (v.starts_at, v.id))))::int AS jobs, (sum(extract(epoch FROM v.ends_at - v.starts_at)) / 60)::int AS planned_minutes
  FROM visit v JOIN job j ON j.id = v.job_id AND j.kind = 'inspection' JOIN office o ON o.id = j.office_id WHERE v.state IN ('on_site', 'done')`;

/** Weeks whose Monday lies in [from, until); those that ended since the last rebuild are counted from their visits. */
export const weeksOfJobs = (reader: Reader, from: string, until: string): Promise<WeekRow[]> =>
  reader.rows<WeekRow>(
    `WITH summed AS (SELECT greatest($1::date, coalesce((SELECT max(week) + 7 FROM week_figure), '-infinity')) AS until)
     SELECT week::text AS week, jobs, planned_minutes AS "plannedMinutes" FROM (
       SELECT week, jobs, planned_minutes FROM week_figure WHERE week >= $1::date AND week < $2::date
       UNION ALL SELECT w.* FROM summed s CROSS JOIN LATERAL (${WEEKS} AND v.starts_at >= s.until - 1 AND v.starts_at < $2::date + 1 GROUP BY 1) w WHERE w.week >= s.until AND w.week < $2::date) every
     ORDER BY week`,
    [from, until],
  );

/** Counts anew every week that was over by `until`, the first instant of a day. */
export async function rebuildWeeks(tx: Tx, until: Date): Promise<void> {
  await execute(tx, 'DELETE FROM week_figure');
  await execute(
    tx,
    `INSERT INTO week_figure (week, jobs, planned_minutes)
     SELECT * FROM (${WEEKS} AND v.starts_at < $1::timestamptz GROUP BY 1) w WHERE w.week < date_trunc('week', $1::timestamptz AT TIME ZONE (SELECT zone FROM firm))::date`,
    until.toISOString(),
  );
}

/** Mean minutes from opening the record to its seal, of the newest 400 inspections sealed on the day they were opened; null where there is none. */
export async function minutesOnSite(reader: Reader, asOf: Date): Promise<{ minutes: number | null; records: number }> {
  const [row] = await reader.rows<{ minutes: number | null; records: number }>(
    `SELECT round(avg(extract(epoch FROM sealed_at - opened_at) / 60))::int AS minutes, count(*)::int AS records FROM (
       SELECT d.opened_at, d.sealed_at FROM (SELECT visit_id, opened_at, sealed_at, recorded_at FROM site_record
         WHERE recorded_at <= $1::timestamptz AND sealed_at - opened_at BETWEEN interval '20 minutes' AND interval '14 hours' ORDER BY recorded_at DESC LIMIT 800) d
         CROSS JOIN LATERAL (SELECT FROM visit v JOIN job j ON j.id = v.job_id WHERE v.id = d.visit_id AND j.kind = 'inspection' OFFSET 0) inspected ORDER BY d.recorded_at DESC LIMIT 400) newest`,
    [asOf.toISOString()],
  );
  return row!;
}

/**
 * Cents paid and set aside (what came back is not taken off: it is what a case costs whoever pays) for the newest callbacks that were
 * recorded by `until`, as the ledger knew them at `asOf`.
 */
export async function costsOfCallbacks(
  reader: Reader,
  { until, asOf, most }: { until: Date; asOf: Date; most: number },
): Promise<number[]> {
  const rows = await reader.rows<{ cents: number }>(
    `SELECT greatest(0, coalesce(m.cents, 0))::bigint AS cents
     FROM (SELECT id, received_at FROM callback WHERE kind NOT IN ('question', 'near_miss') AND duplicate_of IS NULL AND recorded_at <= $1::timestamptz ORDER BY received_at DESC, id LIMIT $3::int) c
       CROSS JOIN LATERAL (SELECT -sum(l.cents) AS cents FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id
         WHERE l.callback_id = c.id AND l.account IN ('bank', 'recoveries', 'callback-reserve') AND e.recorded_at <= $2::timestamptz) m
     ORDER BY c.received_at DESC, c.id`,
    [until.toISOString(), asOf.toISOString(), most],
  );
  return rows.map(({ cents }) => cents);
}

/** Minutes of duty in a week by the work patterns of a day, of everybody who inspects. */
export async function dutyMinutesOfWeek(reader: Reader, day: string): Promise<number> {
  const [row] = await reader.rows<{ minutes: number }>(
    `SELECT coalesce(sum(w.end_minute - w.start_minute), 0)::int AS minutes FROM work_pattern w JOIN person p ON p.id = w.person_id
     WHERE w.from_day <= $1::date AND coalesce(w.until_day, 'infinity') >= $1::date AND p.started_on <= $1::date AND coalesce(p.ended_on, 'infinity') >= $1::date
       AND EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role IN ('inspector', 'lead_inspector'))`,
    [day],
  );
  return row!.minutes;
}

export type KeptOutlook<S, R> = {
  id: string;
  name: string;
  scenario: S;
  seed: number;
  asOf: Date;
  result: R;
  madeAt: Date;
  madeBy: string;
};

const KEPT = `SELECT o.id::text AS id, o.name, o.scenario, o.seed, o.as_of AS "asOf", o.result, o.made_at AS "madeAt", p.name AS "madeBy" FROM outlook o JOIN person p ON p.id = o.made_by`;

/** Newest first. */
export const listOutlooks = <S, R>(reader: Reader): Promise<KeptOutlook<S, R>[]> =>
  reader.rows<KeptOutlook<S, R>>(`${KEPT} ORDER BY o.made_at DESC, o.id DESC LIMIT 100`);

type NewOutlook = { id: string; name: string; scenario: unknown; seed: number; asOf: Date; result: unknown; madeAt: Date; madeBy: string };

/** Constraint: outlook_name_key. */
export async function saveOutlook(tx: Tx, { scenario, seed, result, ...rest }: NewOutlook): Promise<void> {
  await tx.db.outlook.create({ data: { ...rest, seed: BigInt(seed), scenario: scenario as object, result: result as object } });
}

/** Whether there was one. */
export const removeOutlook = async (tx: Tx, id: string): Promise<boolean> =>
  (await touched(tx, 'DELETE FROM outlook WHERE id = $1::uuid', id)) === 1;
