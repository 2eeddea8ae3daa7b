// Sums for the liability pages: what stood at the last rebuild, and what was recorded since. See migration 0033.
import { execute, type Reader, type Tx } from '../database.ts';
import { rebuildMix } from './mix.ts';

export type Grouping = (typeof GROUPINGS)[number];
/** By what figures are told apart; a callback and its money fall under the groups of its job, its system, and the step and cause in force. */
export const GROUPINGS = [
  'all',
  'system',
  'foundation',
  'age',
  'service',
  'rain',
  'pair',
  'person',
  'pair_mix',
  'person_mix',
  'step',
  'cause',
] as const;

/** Counts (`jobs`, `callbacks`, `failures`) and cents. Paid is before recoveries; incurred = paid + reserved - recovered. */
export type Measure = 'jobs' | 'fees' | 'callbacks' | 'failures' | 'paid' | 'reserved' | 'recovered';

/** `origin`: month of inspection, `known`: month in which it became known, both YYYY-MM. */
export type Figure = { measure: Measure; value: string; origin: string; known: string; amount: number };

type Asked = {
  grouping: Grouping;
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
    `WITH bound AS MATERIALIZED (SELECT b.since, b.until, (b.since AT TIME ZONE b.zone)::date AS day, b.whole FROM (
         SELECT coalesce($5::timestamptz + interval '1 millisecond', 'infinity') AS until, f.zone, $5::timestamptz IS NULL OR $5::timestamptz >= s.until AS whole,
           CASE WHEN $5::timestamptz IS NULL OR $5::timestamptz >= s.until THEN s.until ELSE date_trunc('month', $5::timestamptz AT TIME ZONE f.zone) AT TIME ZONE f.zone END AS since
         FROM figure_state s CROSS JOIN (SELECT coalesce((SELECT zone FROM firm), 'UTC') AS zone) f) b),
       every AS (
         SELECT f.measure, f.value, f.origin, f.known, f.amount FROM figure f, bound b
         WHERE f.split = $1 AND f.measure = ANY ($2::text[]) AND (b.whole OR f.known < b.day)
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

/** Until when the sums are whole; null: they were never made. */
export async function figuresUntil(reader: Reader): Promise<Date | null> {
  const [row] = await reader.rows<{ until: Date | null }>("SELECT nullif(until, '-infinity') AS until FROM figure_state");
  return row?.until ?? null;
}

/** Sums anew everything recorded before `until`, from its rows. */
export async function rebuildJobsAndCallbacks(tx: Tx, until: Date): Promise<void> {
  await execute(tx, 'DELETE FROM figure');
  for (const name of ['job_figures', 'callback_figures'])
    await execute(
      tx,
      `INSERT INTO figure (split, measure, value, origin, known, amount) SELECT * FROM ${name}('-infinity', $1::timestamptz, $2::text[])`,
      until.toISOString(),
      GROUPINGS,
    );
  await rebuildMix(tx);
  await execute(tx, 'UPDATE figure_state SET until = $1::timestamptz', until.toISOString());
}

/** Sums anew the steps of visits that start in [since, until); null is the beginning. `since` is the first instant of a month. */
export async function rebuildSteps(tx: Tx, since: Date | null, until: Date): Promise<void> {
  const from = since?.toISOString() ?? '-infinity';
  await execute(
    tx,
    `DELETE FROM step_figure WHERE month >= ($1::timestamptz AT TIME ZONE (SELECT zone FROM firm))::date OR $1 = '-infinity'`,
    from,
  );
  await execute(tx, 'INSERT INTO step_figure SELECT * FROM step_figures($1::timestamptz, $2::timestamptz)', from, until.toISOString());
  await execute(tx, 'UPDATE figure_state SET steps_until = $1::timestamptz', until.toISOString());
}
