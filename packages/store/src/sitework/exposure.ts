// How often steps applied: what rates of failure are counted over.
import type { Reader } from '../database.ts';

/** Days are those of the visit at its office, both included; absent means without a bound. */
export type ExposureQuery = { stepKey: string; revisionId?: string; from?: string; to?: string };

/** `items`: times the step applied, one for each item; `jobs`: jobs at which it applied at least once. `lookedAt` were done. */
export type Exposure = { stepKey: string; revisionId: string; items: number; jobs: number; lookedAt: number; couldNot: number };

/**
 * Times that a step applied on sealed site records, by revision. What the pair found not to exist at the property did not
 * apply and is left out; what could not be inspected or was not reached did apply.
 */
export const timesApplied = (reader: Reader, query: ExposureQuery): Promise<Exposure[]> =>
  reader.rows<Exposure>(
    `WITH applied AS (
       SELECT s.step_key, s.revision_id, v.job_id, coalesce(e.outcomes, '{}') AS outcomes
       FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record r ON r.id = k.record_id AND r.state = 'sealed' JOIN visit v ON v.id = r.visit_id
         JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id
         LEFT JOIN LATERAL (SELECT array_agg(x.outcome) AS outcomes FROM step_entry x WHERE x.record_id = r.id AND x.step_key = s.step_key AND x.item_id IS NOT DISTINCT FROM s.item_id
           AND NOT EXISTS (SELECT FROM step_entry y WHERE y.supersedes_id = x.id)) e ON true
       WHERE s.step_key = $1 AND ($2::uuid IS NULL OR s.revision_id = $2::uuid)
         AND ($3::date IS NULL OR (v.starts_at AT TIME ZONE o.zone)::date >= $3::date) AND ($4::date IS NULL OR (v.starts_at AT TIME ZONE o.zone)::date <= $4::date))
     SELECT step_key AS "stepKey", revision_id::text AS "revisionId", count(*)::int AS items, count(DISTINCT job_id)::int AS jobs,
       (count(*) FILTER (WHERE 'done' = ANY(outcomes)))::int AS "lookedAt", (count(*) FILTER (WHERE outcomes && ARRAY['could_not', 'from_opening'] AND NOT 'done' = ANY(outcomes)))::int AS "couldNot"
     FROM applied WHERE NOT ('none_at_property' = ANY(outcomes) AND NOT 'done' = ANY(outcomes)) GROUP BY step_key, revision_id ORDER BY revision_id`,
    [query.stepKey, query.revisionId ?? null, query.from ?? null, query.to ?? null],
  );
