// How visits ended early: refused, nobody there, stopped.
import type { EarlyEnding } from '@backsight/domain/jobs/deskRules';
import type { ReportOwed } from '@backsight/domain/sitework/ending';
import { execute, type Reader, type Tx } from '../database.ts';

export type NewEnding = {
  visitId: string;
  kind: EarlyEnding;
  waitedMinutes: number | null;
  callsMade: number | null;
  textId: string | null;
  photoSha256: string | null;
  reportOwed: ReportOwed;
  endedAt: Date;
  recordedAt: Date;
  recordedBy: string;
};

/** Constraint: visit_ending_known; one ending for a visit. */
export async function saveEnding(tx: Tx, e: NewEnding): Promise<void> {
  await tx.db.visitEnding.create({ data: e });
}

/** The visit has ended: what was left of its time is free again, in whole minutes. */
export const shortenEnded = (tx: Tx, visitId: string, endedAt: Date): Promise<void> =>
  execute(
    tx,
    `UPDATE visit SET state = 'ended', version = version + 1, expected_at = NULL,
       ends_at = least(ends_at, greatest(starts_at + interval '1 minute', date_trunc('minute', $2::timestamptz) + interval '1 minute')) WHERE id = $1::uuid`,
    visitId,
    endedAt.toISOString(),
  );

export type EndingRow = Omit<NewEnding, 'textId' | 'recordedBy'> & {
  jobId: string;
  note: string | null;
  by: string;
  startsAt: Date;
  hasRecord: boolean;
};

const ENDING = `SELECT e.visit_id::text AS "visitId", v.job_id::text AS "jobId", e.kind, e.waited_minutes AS "waitedMinutes", e.calls_made AS "callsMade", t.body AS note, e.photo_sha256 AS "photoSha256",
    e.report_owed AS "reportOwed", e.ended_at AS "endedAt", e.recorded_at AS "recordedAt", w.name AS by, v.starts_at AS "startsAt", r.id IS NOT NULL AS "hasRecord"
  FROM visit_ending e JOIN visit v ON v.id = e.visit_id JOIN person w ON w.id = e.recorded_by LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN site_record r ON r.visit_id = v.id`;

/** Endings of a job's visits, the newest first. */
export const endingsOfJob = (reader: Reader, jobId: string): Promise<EndingRow[]> =>
  reader.rows<EndingRow>(`${ENDING} WHERE v.job_id = $1::uuid ORDER BY e.ended_at DESC, e.visit_id`, [jobId]);

export const findEnding = async (reader: Reader, visitId: string): Promise<EndingRow | null> =>
  (await reader.rows<EndingRow>(`${ENDING} WHERE e.visit_id = $1::uuid`, [visitId]))[0] ?? null;
