// What was known about the houses of past inspections: for asking what a rule would have meant for them.
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Reader } from '../database.ts';

export type PastFacts = { facts: PropertyFacts; services: string[]; day: string };

/** Inspections whose visit began within a span, with the day of the visit where the office is. */
export const pastFacts = (reader: Reader, from: Date, until: Date): Promise<PastFacts[]> =>
  reader.rows<PastFacts>(
    `SELECT j.facts, ARRAY(SELECT s.service_key FROM job_service s WHERE s.job_id = j.id ORDER BY s.service_key) AS services, (min(v.starts_at) AT TIME ZONE o.zone)::date::text AS day
     FROM job j JOIN visit v ON v.job_id = j.id AND v.live JOIN office o ON o.id = j.office_id
     WHERE j.kind = 'inspection' AND v.state <> 'held' AND v.starts_at >= $1::timestamptz AND v.starts_at < $2::timestamptz GROUP BY j.id, o.zone`,
    [from.toISOString(), until.toISOString()],
  );
