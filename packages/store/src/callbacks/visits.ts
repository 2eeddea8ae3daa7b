// Visits that remedies brought: which job, when, who.
import type { Reader, Tx } from '../database.ts';

export type RemedyVisitRow = { remedyId: string; jobId: string; number: number; state: string; startsAt: Date; pair: string[] };

/** Visits of the remedies of a callback that were not cancelled. */
export const visitsOfRemedies = (reader: Reader, callbackId: string): Promise<RemedyVisitRow[]> =>
  reader.rows<RemedyVisitRow>(
    `SELECT x.remedy_id::text AS "remedyId", j.id::text AS "jobId", j.number, j.state, v.starts_at AS "startsAt",
       ARRAY(SELECT p.name FROM assignment a JOIN person p ON p.id = a.person_id WHERE a.visit_id = v.id ORDER BY a.place) AS pair
     FROM remedy_visit x JOIN remedy r ON r.id = x.remedy_id JOIN job j ON j.id = x.job_id JOIN visit v ON v.job_id = j.id AND v.state <> 'cancelled'
     WHERE r.callback_id = $1::uuid AND j.state <> 'cancelled' ORDER BY v.starts_at`,
    [callbackId],
  );

export const saveRemedyVisit = (tx: Tx, remedyId: string, jobId: string): Promise<void> =>
  tx.db.remedyVisit.create({ data: { remedyId, jobId } });

/** Whether a visit of the remedy took place and its record is sealed. */
export const isLookedAtAgain = async (reader: Reader, remedyId: string): Promise<boolean> =>
  (
    await reader.rows(
      `SELECT FROM remedy_visit x JOIN visit v ON v.job_id = x.job_id JOIN site_record d ON d.visit_id = v.id AND d.state = 'sealed' WHERE x.remedy_id = $1::uuid LIMIT 1`,
      [remedyId],
    )
  ).length > 0;
