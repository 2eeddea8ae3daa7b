// Sums for the liability pages: what stood at the last rebuild, and what was recorded since. See migration 0033.
import { execute, type Reader, type Tx } from '../database.ts';
import { DATED, GROUPINGS, type Measure } from './groupings.ts';
import { rebuildSums } from './spans.ts';

/** `origin`: month of inspection, `known`: month in which it became known, both YYYY-MM. */
export type Figure = { measure: Measure; value: string; origin: string; known: string; amount: number };

type Asked = {
  grouping: (typeof DATED)[number];
  measures: readonly Measure[];
  /** Only what was recorded by this instant. */
  asOf?: Date;
  values?: readonly string[];
  /** First month of inspection, YYYY-MM. */
  fromMonth?: string;
};

const OF_JOBS: readonly Measure[] = ['jobs', 'fees'];

/** Sums by measure, value, month of inspection and month of knowing; no row where nothing is. */
export function figures(reader: Reader, { grouping, measures, asOf, values, fromMonth }: Asked): Promise<Figure[]> {
  const live = [
    ...(measures.some((one) => OF_JOBS.includes(one)) ? ['job_figures'] : []),
    ...(measures.some((one) => !OF_JOBS.includes(one)) ? ['callback_figures'] : []),
  ];
  return reader.rows<Figure>(
    `WITH bound AS MATERIALIZED (SELECT b.since, b.until, (date_trunc('month', b.since AT TIME ZONE b.zone))::date AS month, (b.since AT TIME ZONE b.zone)::date AS day, b.whole FROM (
         SELECT coalesce($5::timestamptz + interval '1 millisecond', 'infinity') AS until, f.zone, $5::timestamptz IS NULL OR $5::timestamptz >= s.until AS whole,
           CASE WHEN $5::timestamptz IS NULL OR $5::timestamptz >= s.until THEN s.until ELSE date_trunc('${grouping === 'all' ? 'day' : 'month'}', ($5::timestamptz + interval '1 millisecond') AT TIME ZONE f.zone) AT TIME ZONE f.zone END AS since
         FROM figure_state s CROSS JOIN (SELECT coalesce((SELECT zone FROM firm), 'UTC') AS zone) f) b),
       every AS (
         SELECT f.measure, f.value, f.origin, f.known, f.amount FROM figure f, bound b
         WHERE f.split = $1 AND f.measure = ANY ($2::text[]) AND (b.whole OR f.known < b.month)
         ${grouping === 'all' ? `UNION ALL SELECT f.measure, '', f.origin, f.day, f.amount FROM figure_day f, bound b WHERE NOT b.whole AND f.day >= b.month AND f.day < b.day AND f.measure = ANY ($2::text[])` : ''}
         ${live.map((name) => `UNION ALL SELECT l.measure, l.value, l.origin, l.known, l.amount FROM bound b, ${name}(b.since, b.until, ARRAY[$1]) l WHERE l.measure = ANY ($2::text[])`).join(' ')})
     SELECT measure, value, to_char(origin, 'YYYY-MM') AS origin, to_char(known, 'YYYY-MM') AS known, sum(amount)::bigint AS amount FROM every
     WHERE ($3::text[] IS NULL OR value = ANY ($3::text[])) AND ($4::date IS NULL OR origin >= $4::date)
     GROUP BY 1, 2, 3, 4 HAVING sum(amount) <> 0 ORDER BY 1, 2, 3, 4`,
    [grouping, measures, values ?? null, fromMonth ? `${fromMonth}-01` : null, asOf?.toISOString() ?? null],
  );
}

/** Times that one step applied by one revision in one month of visits, and what its sealed records (`judged`) hold. */
export type StepFigure = {
  stepKey: string;
  revisionId: string;
  month: string;
  times: number;
  jobs: number;
  judged: number;
  met: number;
  skipped: number;
  couldNot: number;
  differed: number;
};

/** By step, revision and month. What is opened, corrected or sealed later for a visit of before counts from the next night on. */
export const stepFigures = (reader: Reader, { stepKeys }: { stepKeys?: readonly string[] } = {}): Promise<StepFigure[]> =>
  reader.rows<StepFigure>(
    `SELECT step_key AS "stepKey", revision_id::text AS "revisionId", to_char(month, 'YYYY-MM') AS month, sum(times)::int AS times, sum(jobs)::int AS jobs, sum(judged)::int AS judged, sum(met)::int AS met,
       sum(skipped)::int AS skipped, sum(could_not)::int AS "couldNot", sum(differed)::int AS differed
     FROM (SELECT * FROM step_figure UNION ALL SELECT l.* FROM figure_state s CROSS JOIN LATERAL step_figures(s.steps_until, 'infinity') l) every
     WHERE $1::text[] IS NULL OR step_key = ANY ($1::text[]) GROUP BY 1, 2, 3 ORDER BY 1, 3, 2`,
    [stepKeys ?? null],
  );

/** Until when the sums are whole; null: they were never made, or those of the steps count otherwise since a migration and were not made since. */
export async function figuresUntil(reader: Reader): Promise<Date | null> {
  const [row] = await reader.rows<{ until: Date | null }>(
    "SELECT nullif(least(until, steps_until), '-infinity') AS until FROM figure_state",
  );
  return row?.until ?? null;
}

/** Sums anew everything recorded before `until`, from its rows. */
export async function rebuildJobsAndCallbacks(tx: Tx, until: Date): Promise<void> {
  await rebuildSums(tx, until, GROUPINGS, DATED);
  await execute(tx, 'UPDATE figure_state SET until = $1::timestamptz', until.toISOString());
}

/**
 * Sums anew the steps of visits that start in [since, until); null is the beginning. `since` is the first instant of a month. Month by
 * month, so that what is sorted at once stays as large as a month however many years there are.
 */
export async function rebuildSteps(tx: Tx, since: Date | null, until: Date): Promise<void> {
  const from = since?.toISOString() ?? '-infinity';
  await execute(
    tx,
    `DELETE FROM step_figure WHERE month >= ($1::timestamptz AT TIME ZONE (SELECT zone FROM firm))::date OR $1 = '-infinity'`,
    from,
  );
  const months = await tx.rows<{ starts: Date; ends: Date }>(
    `SELECT m AT TIME ZONE f.zone AS starts, least((m + interval '1 month') AT TIME ZONE f.zone, $2::timestamptz) AS ends
     FROM firm f CROSS JOIN LATERAL generate_series(
       date_trunc('month', greatest($1::timestamptz, coalesce((SELECT min(starts_at) FROM visit), $2::timestamptz)) AT TIME ZONE f.zone), $2::timestamptz AT TIME ZONE f.zone, '1 month') m
     WHERE m AT TIME ZONE f.zone < $2::timestamptz ORDER BY m`,
    [from, until.toISOString()],
  );
  for (const { starts, ends } of months)
    await execute(
      tx,
      'INSERT INTO step_figure SELECT * FROM step_figures($1::timestamptz, $2::timestamptz)',
      starts.toISOString(),
      ends.toISOString(),
    );
  await execute(tx, 'UPDATE figure_state SET steps_until = $1::timestamptz', until.toISOString());
}
