// Charges that the rules asked for and that somebody waived, with the reason.
import type { Reader } from '../database.ts';

export type WaiverRow = {
  id: string;
  jobId: string;
  jobNumber: number;
  address: string;
  what: string;
  cents: number;
  reason: string;
  at: Date;
  by: string | null;
};

/** Newest first, at most 200. Waivers written before amounts were kept have 0 cents. */
export const listWaivers = (reader: Reader): Promise<WaiverRow[]> =>
  reader.rows(
    `SELECT e.id, j.id AS "jobId", j.number AS "jobNumber", p.address, CASE e.kind WHEN 'cancelled' THEN 'cancelled_late' ELSE e.details->>'what' END AS what,
      coalesce((e.details->>'waivedCents')::int, 0) AS cents, coalesce(t.body, '') AS reason, e.happened_at AS at, b.name AS by
    FROM job_event e JOIN job j ON j.id = e.job_id JOIN property p ON p.id = j.property_id LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN person b ON b.id = e.actor_id
    WHERE e.kind IN ('fee_decided', 'cancelled') AND e.details->>'waived' = 'true' ORDER BY e.happened_at DESC, e.id LIMIT 200`,
  );
