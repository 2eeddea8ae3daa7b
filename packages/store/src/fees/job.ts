// What an invoice needs to know of a job.
import type { Terms } from '@backsight/domain/jobs/words';
import type { Reader } from '../database.ts';

export type JobForInvoice = {
  number: number;
  terms: Terms;
  zone: string;
  visitOn: string | null;
  visited: boolean;
  parties: { partyId: string; name: string; role: string }[];
  lines: { label: string; cents: number }[];
};

/** Terms, day of the first visit that still counts, payers and clients, and the fee lines in force. */
export const findJobForInvoice = async (reader: Reader, jobId: string): Promise<JobForInvoice | null> =>
  (
    await reader.rows<JobForInvoice>(
      `SELECT j.number, j.terms, o.zone,
         (SELECT (v.starts_at AT TIME ZONE o.zone)::date::text FROM visit v WHERE v.job_id = j.id AND v.live ORDER BY v.state = 'ended', v.starts_at LIMIT 1) AS "visitOn",
         EXISTS (SELECT FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done')) AS visited,
         coalesce((SELECT jsonb_agg(jsonb_build_object('partyId', p.id, 'name', p.name, 'role', r.role) ORDER BY r.id) FROM job_party r JOIN party p ON p.id = r.party_id
           WHERE r.job_id = j.id AND r.role IN ('payer', 'client')), '[]'::jsonb) AS parties,
         coalesce((SELECT jsonb_agg(jsonb_build_object('label', f.label, 'cents', f.cents) ORDER BY f.position, f.id) FROM job_fee_line f WHERE f.job_id = j.id AND f.withdrawn_at IS NULL), '[]'::jsonb) AS lines
       FROM job j JOIN office o ON o.id = j.office_id WHERE j.id = $1::uuid`,
      [jobId],
    )
  )[0] ?? null;
