// Estimates of independent contractors, and what speaks against a remedy and was gone on with.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type EstimateRow = {
  id: string;
  contractor: string;
  license: string;
  cents: number;
  scope: string;
  estimatedOn: string;
  file: { sha256: string; name: string; mediaType: string } | null;
  by: string;
  recordedAt: Date;
};

/** The lowest first. */
export const estimatesOf = (reader: Reader, callbackId: string): Promise<EstimateRow[]> =>
  reader.rows<EstimateRow>(
    `SELECT e.id::text AS id, e.contractor, e.license, e.cents, e.scope, e.estimated_on::text AS "estimatedOn", p.name AS by, e.recorded_at AS "recordedAt",
       CASE WHEN f.sha256 IS NULL THEN NULL ELSE jsonb_build_object('sha256', f.sha256, 'name', f.name, 'mediaType', f.media_type) END AS file
     FROM estimate e JOIN person p ON p.id = e.recorded_by LEFT JOIN stored_file f ON f.sha256 = e.file_sha256 WHERE e.callback_id = $1::uuid ORDER BY e.cents, e.recorded_at`,
    [callbackId],
  );

/** The callback of an estimate that has a file; null when there is none. */
export const estimateFile = async (
  reader: Reader,
  id: string,
): Promise<{ callbackId: string; sha256: string; name: string; mediaType: string } | null> =>
  (
    await reader.rows<{ callbackId: string; sha256: string; name: string; mediaType: string }>(
      `SELECT e.callback_id::text AS "callbackId", f.sha256, f.name, f.media_type AS "mediaType" FROM estimate e JOIN stored_file f ON f.sha256 = e.file_sha256 WHERE e.id = $1::uuid`,
      [id],
    )
  )[0] ?? null;

export type NewEstimate = {
  id: string;
  callbackId: string;
  contractor: string;
  license: string;
  cents: number;
  scope: string;
  estimatedOn: string;
  fileSha256: string | null;
  recordedBy: string;
  recordedAt: Date;
};
/** Rule: estimate_says. */
export const saveEstimate = (tx: Tx, e: NewEstimate): Promise<void> =>
  tx.db.estimate.create({ data: { ...e, estimatedOn: dayIn(e.estimatedOn) } });

export type NewGoneOnWith = {
  id: string;
  remedyId: string;
  code: string;
  sentence: string;
  reason: string;
  actorId: string;
  recordedAt: Date;
};
export const saveGoneOnWith = async (tx: Tx, rows: readonly NewGoneOnWith[]): Promise<void> => {
  if (rows.length > 0) await tx.db.remedyConflict.createMany({ data: [...rows] });
};

export type GoneOnWithRow = { remedyId: string; code: string; sentence: string; reason: string; by: string; at: Date };
export const goneOnWithOf = (reader: Reader, callbackId: string): Promise<GoneOnWithRow[]> =>
  reader.rows<GoneOnWithRow>(
    `SELECT c.remedy_id::text AS "remedyId", c.code, c.sentence, c.reason, p.name AS by, c.recorded_at AS at FROM remedy_conflict c JOIN remedy r ON r.id = c.remedy_id JOIN person p ON p.id = c.actor_id
     WHERE r.callback_id = $1::uuid ORDER BY c.recorded_at, c.id`,
    [callbackId],
  );

export type TermsRow = {
  limits: unknown;
  clauses: unknown;
  feeCents: number;
  inspectedOn: string | null;
  completedOn: string | null;
  deliveredOn: string | null;
};

/** What the agreement of a job limits, its fee, and the days that its time to claim runs from; `zone` is the office's. */
export const termsOfJob = async (reader: Reader, jobId: string, zone: string): Promise<TermsRow> => {
  const [row] = await reader.rows<TermsRow>(
    `SELECT t.limits, t.clauses, coalesce((SELECT sum(l.cents) FROM job_fee_line l WHERE l.job_id = j.id AND l.withdrawn_at IS NULL), 0)::int AS "feeCents",
       r.inspected_on::text AS "inspectedOn", r.completed_on::text AS "completedOn", (SELECT (min(d.delivered_at) AT TIME ZONE $2)::date::text FROM report_delivery d WHERE d.report_id = r.id) AS "deliveredOn"
     FROM job j LEFT JOIN LATERAL (SELECT a.text_id FROM agreement a WHERE a.job_id = j.id AND a.remedy_id IS NULL ORDER BY a.issued_at DESC LIMIT 1) a ON true LEFT JOIN agreement_text t ON t.id = a.text_id
       LEFT JOIN report r ON r.job_id = j.id AND r.version = 1 WHERE j.id = $1::uuid`,
    [jobId, zone],
  );
  if (!row) throw new Error('a callback without a job');
  return row;
};

/** Versions of the report of a job that were handed over at an instant or after it, written after it too. */
export const supplementsSince = (
  reader: Reader,
  jobId: string,
  since: Date,
): Promise<{ id: string; version: number; deliveredAt: Date }[]> =>
  reader.rows(
    `SELECT r.id::text AS id, r.version, min(d.delivered_at) AS "deliveredAt" FROM report r JOIN report_delivery d ON d.report_id = r.id
     WHERE r.job_id = $1::uuid AND r.version > 1 AND r.recorded_at >= $2::timestamptz GROUP BY r.id, r.version ORDER BY r.version DESC`,
    [jobId, since.toISOString()],
  );
