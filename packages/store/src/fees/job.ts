// What an invoice needs to know of a job.
import type { Terms } from '@backsight/domain/jobs/words';
import type { Reader } from '../database.ts';

export type JobForInvoice = {
  number: number;
  terms: Terms;
  zone: string;
  visitOn: string | null;
  visited: boolean;
  depositCents: number | null;
  depositPercent: number | null;
  /** The day of the closing, where one was given. */
  dueOn: string | null;
  /** `weight` is the share of a payer; null = not said. */
  parties: { partyId: string; name: string; role: string; weight: number | null }[];
  /** `service` is what the line is charged for; null = the inspection itself. */
  lines: { label: string; cents: number; service: string | null }[];
};

/** Terms, day of the first visit that still counts, payers and clients, and the fee lines in force. */
export const findJobForInvoice = async (reader: Reader, jobId: string): Promise<JobForInvoice | null> =>
  (
    await reader.rows<JobForInvoice>(
      `SELECT j.number, j.terms, o.zone, t.deposit_cents AS "depositCents", t.deposit_percent AS "depositPercent", t.due_on::text AS "dueOn",
         (SELECT (v.starts_at AT TIME ZONE o.zone)::date::text FROM visit v WHERE v.job_id = j.id AND v.live ORDER BY v.state = 'ended', v.starts_at LIMIT 1) AS "visitOn",
         EXISTS (SELECT FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done')) AS visited,
         coalesce((SELECT jsonb_agg(jsonb_build_object('partyId', p.id, 'name', p.name, 'role', r.role, 'weight', h.weight) ORDER BY r.id) FROM job_party r JOIN party p ON p.id = r.party_id
           LEFT JOIN payer_share h ON h.job_id = r.job_id AND h.party_id = r.party_id
           WHERE r.job_id = j.id AND r.role IN ('payer', 'client')), '[]'::jsonb) AS parties,
         coalesce((SELECT jsonb_agg(jsonb_build_object('label', f.label, 'cents', f.cents, 'service',
           (SELECT rule ->> 'service' FROM jsonb_array_elements(s.body -> 'rules') rule WHERE rule ->> 'key' = f.rule_key LIMIT 1)) ORDER BY f.position, f.id) FROM job_fee_line f WHERE f.job_id = j.id AND f.withdrawn_at IS NULL), '[]'::jsonb) AS lines
       FROM job j JOIN office o ON o.id = j.office_id JOIN fee_schedule s ON s.id = j.schedule_id LEFT JOIN job_terms t ON t.job_id = j.id WHERE j.id = $1::uuid`,
      [jobId],
    )
  )[0] ?? null;
