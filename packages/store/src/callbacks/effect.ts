// What the effect of a change is counted from: jobs on which a step applied, callbacks traced to it, and what its records hold.
import type { Reader } from '../database.ts';
import { isFilledIn } from '../filled.ts';
import { keysOfLine } from '../lineage.ts';

export type ExposedJob = {
  jobId: string;
  inspectedAt: Date;
  /** Callbacks of this job that were traced to the step, by when they were received; near-misses and conclusions that wait for confirmation apart. */
  failures: Date[];
  nearMisses: number;
};

/** Between which records are counted, when they were opened; null: there is no bound. */
export type Counted = { after: Date | null; before: Date | null };
const ALL: Counted = { after: null, before: null };

/**
 * Bounds that leave at most `most` records of the firm on each side of an instant, the nearest to it. A firm that inspects much is
 * compared with the time right before a change, and looking costs no more after many years.
 */
export async function countedAround(reader: Reader, at: Date, most: number): Promise<Counted> {
  const [row] = await reader.rows<Counted>(
    `SELECT (SELECT opened_at FROM site_record WHERE opened_at < $1::timestamptz ORDER BY opened_at DESC OFFSET $2::int LIMIT 1) AS after,
       (SELECT opened_at FROM site_record WHERE opened_at >= $1::timestamptz ORDER BY opened_at OFFSET $2::int LIMIT 1) AS before`,
    [at.toISOString(), most],
  );
  return row!;
}

/** SQL: a package of a record d that was opened between $2 and $3, with its steps s whose keys are among $1, which are known then: how many records hold a step decides how they are best found. */
const COUNTED = `site_record d JOIN site_package k ON k.record_id = d.id AND d.opened_at > coalesce($2::timestamptz, '-infinity') AND d.opened_at < coalesce($3::timestamptz, 'infinity')
  JOIN package_step s ON s.package_id = k.id AND s.step_key = ANY ($1::text[])`;
const given = ({ after, before }: Counted) => [after?.toISOString() ?? null, before?.toISOString() ?? null];

/** Jobs whose package held a step of the line, by when it was handed out. A callback visit looks again at what was counted before. */
export async function exposedJobs(reader: Reader, root: string, counted: Counted = ALL): Promise<ExposedJob[]> {
  const rows = await reader.rows<{ jobId: string; inspectedAt: Date; failures: string[]; nearMisses: number }>(
    `WITH newest AS (SELECT DISTINCT ON (callback_id) callback_id, cause, step_key, needs_confirmation AND NOT EXISTS (SELECT FROM conclusion_confirmation f WHERE f.conclusion_id = conclusion.id) AS waits FROM conclusion ORDER BY callback_id, happened_at DESC, id DESC),
       failed AS (SELECT c.job_id, jsonb_agg(c.received_at ORDER BY c.received_at) FILTER (WHERE c.kind <> 'near_miss') AS failures, count(*) FILTER (WHERE c.kind = 'near_miss')::int AS near
         FROM newest n JOIN callback c ON c.id = n.callback_id
         WHERE n.step_key = ANY ($1::text[]) AND n.cause IN ('skipped', 'done_wrongly', 'not_in_procedure', 'unclear') AND NOT n.waits AND c.kind <> 'question' GROUP BY 1),
       worked AS (SELECT v.job_id, min(k.issued_at) AS at FROM ${COUNTED} JOIN visit v ON v.id = d.visit_id JOIN job j ON j.id = v.job_id AND j.kind <> 'callback_visit' GROUP BY 1)
     SELECT w.job_id::text AS "jobId", w.at AS "inspectedAt", coalesce(f.failures, '[]') AS failures, coalesce(f.near, 0) AS "nearMisses"
     FROM worked w LEFT JOIN failed f ON f.job_id = w.job_id ORDER BY w.at, w.job_id`,
    [await keysOfLine(reader, root), ...given(counted)],
  );
  return rows.map((row) => ({ ...row, failures: row.failures.map((at) => new Date(at)) }));
}

export type StepRecord = {
  openedAt: Date;
  noEntry: boolean;
  endedBefore: boolean;
  differs: boolean;
  outside: boolean;
  partnerDiffers: boolean;
  couldNot: boolean;
  /** Something that we changed was not back, and client and office were told. */
  notRestored: boolean;
  /** Built before 1980; null where nobody knows. */
  old: boolean | null;
};

const FILLED = isFilledIn('e');

/** Sealed records that asked for a step of the line, oldest first, with what their standing entries at it show: those of the step are found first, which are few beside all of a record. What the service filled in says something only at places where nobody looked. */
export const recordsOfStep = async (reader: Reader, root: string, counted: Counted = ALL): Promise<StepRecord[]> =>
  reader.rows<StepRecord>(
    `WITH asked AS (SELECT DISTINCT k.record_id, s.item_id, s.step_key FROM ${COUNTED} WHERE d.state = 'sealed'),
       standing AS (SELECT e.record_id, e.step_key, e.item_id, bool_or(e.outcome = 'ended_before') AND bool_and(${FILLED}) AS ended_before,
           bool_or(e.outcome IN ('could_not', 'from_opening') AND NOT ${FILLED}) OR (bool_and(${FILLED}) AND bool_or(e.outcome = 'could_not')) AS could_not, bool_or(e.match = 'differs') AS differs,
           bool_or(e.match = 'outside' AND e.text_id IS NULL) AS outside,
           count(DISTINCT e.observed_by) FILTER (WHERE NOT ${FILLED}) > 1 AND count(DISTINCT e.outcome || coalesce(e.value->>'evidence', '')) FILTER (WHERE NOT ${FILLED}) > 1 AS partner_differs
         FROM step_entry e WHERE e.record_id IN (SELECT record_id FROM asked) AND e.step_key = ANY ($1::text[]) AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = e.id) GROUP BY 1, 2, 3),
       judged AS (SELECT a.record_id, bool_or(s.record_id IS NULL) AS "noEntry", coalesce(bool_or(s.ended_before), false) AS "endedBefore", coalesce(bool_or(s.could_not), false) AS "couldNot",
           coalesce(bool_or(s.differs), false) AS differs, coalesce(bool_or(s.outside), false) AS outside, coalesce(bool_or(s.partner_differs), false) AS "partnerDiffers"
         FROM asked a LEFT JOIN standing s ON s.record_id = a.record_id AND s.step_key = a.step_key AND s.item_id IS NOT DISTINCT FROM a.item_id GROUP BY 1)
     SELECT d.opened_at AS "openedAt", g."noEntry", g."endedBefore", g."couldNot", g.differs, g.outside, g."partnerDiffers",
       EXISTS (SELECT FROM step_entry t WHERE t.record_id = d.id AND t.value->'act'->>'do' = 'told') AS "notRestored",
       CASE WHEN jsonb_typeof(j.facts->'yearBuilt') = 'number' THEN (j.facts->>'yearBuilt')::int < 1980 END AS old
     FROM judged g JOIN site_record d ON d.id = g.record_id JOIN visit v ON v.id = d.visit_id JOIN job j ON j.id = v.job_id ORDER BY d.opened_at, d.id`,
    [await keysOfLine(reader, root), ...given(counted)],
  );

/** Of all callbacks ever received about a job of this firm: how many came within so many days of the inspection. */
export const followUpShare = async (reader: Reader, days: number): Promise<{ within: number; total: number }> =>
  (
    await reader.rows<{ within: number; total: number }>(
      `SELECT count(*) FILTER (WHERE c.received_at < i.at + $1::int * interval '1 day')::int AS within, count(*)::int AS total
       FROM callback c CROSS JOIN LATERAL (SELECT min(v.starts_at) AS at FROM visit v WHERE v.job_id = c.job_id AND v.state IN ('on_site', 'done')) i
       WHERE c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL AND i.at IS NOT NULL`,
      [days],
    )
  )[0]!;
