// What outlooks rest on: the weeks of a year, what callbacks cost, how often a step applies; and the outlooks that were kept.
import { execute, type Reader, type Tx } from '../database.ts';
import { LINEAGE } from '../lineage.ts';

export type WeekRow = { /** Monday. */ week: string; jobs: number; plannedMinutes: number };

/** Inspections whose first visit was on the days [from, until), by week in the office's zone, with the minutes that all visits of a week were planned for. */
export const weeksOfJobs = (reader: Reader, from: string, until: string): Promise<WeekRow[]> =>
  reader.rows<WeekRow>(
    `SELECT date_trunc('week', v.starts_at AT TIME ZONE o.zone)::date::text AS week, (count(*) FILTER (WHERE NOT EXISTS (
       SELECT FROM visit f WHERE f.job_id = v.job_id AND f.state IN ('on_site', 'done') AND (f.starts_at, f.id) < (v.starts_at, v.id))))::int AS jobs, sum(extract(epoch FROM v.ends_at - v.starts_at) / 60)::int AS "plannedMinutes"
     FROM visit v JOIN job j ON j.id = v.job_id AND j.kind = 'inspection' JOIN office o ON o.id = j.office_id
     WHERE v.starts_at >= $1::date - 1 AND v.starts_at < $2::date + 1 AND (v.starts_at AT TIME ZONE o.zone)::date >= $1::date AND (v.starts_at AT TIME ZONE o.zone)::date < $2::date
       AND v.state IN ('on_site', 'done') GROUP BY 1 ORDER BY 1`,
    [from, until],
  );

/** Mean minutes from opening the record to its seal, of the newest 400 sealed on the day they were opened; null where there is none. */
export async function minutesOnSite(reader: Reader, asOf: Date): Promise<{ minutes: number | null; records: number }> {
  const [row] = await reader.rows<{ minutes: number | null; records: number }>(
    `SELECT round(avg(extract(epoch FROM sealed_at - opened_at) / 60))::int AS minutes, count(*)::int AS records FROM (
       SELECT d.opened_at, d.sealed_at FROM site_record d JOIN visit v ON v.id = d.visit_id JOIN job j ON j.id = v.job_id AND j.kind = 'inspection'
       WHERE d.recorded_at <= $1::timestamptz AND d.sealed_at - d.opened_at BETWEEN interval '20 minutes' AND interval '14 hours' ORDER BY d.recorded_at DESC LIMIT 400) newest`,
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
    `SELECT greatest(0, coalesce(-sum(l.cents) FILTER (WHERE e.recorded_at <= $2::timestamptz), 0))::bigint AS cents
     FROM (SELECT id, received_at FROM callback WHERE kind NOT IN ('question', 'near_miss') AND duplicate_of IS NULL AND recorded_at <= $1::timestamptz ORDER BY received_at DESC, id LIMIT $3::int) c
       LEFT JOIN ledger_line l ON l.callback_id = c.id AND l.account IN ('bank', 'recoveries', 'callback-reserve') LEFT JOIN ledger_entry e ON e.id = l.entry_id
     GROUP BY c.id, c.received_at ORDER BY c.received_at DESC, c.id`,
    [until.toISOString(), asOf.toISOString(), most],
  );
  return rows.map(({ cents }) => cents);
}

/** Every key of the line of descent of a step. */
export const keysOfLine = async (reader: Reader, root: string): Promise<string[]> =>
  (await reader.rows<{ key: string }>(`${LINEAGE} SELECT key FROM line WHERE root = $1`, [root])).map(({ key }) => key);

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
  (await execute(tx, 'DELETE FROM outlook WHERE id = $1::uuid', id)) === 1;
