// What stands in the head of a paper besides the firm's name.
import type { Reader } from '../database.ts';

/** Licenses that hold on the day: of those who go to the job's visits, or, without a job, of all who may lead. */
export const licensesForPaper = (reader: Reader, jobId: string | null, day: string): Promise<{ name: string; number: string }[]> =>
  reader.rows(
    `SELECT p.name, l.number FROM person p JOIN license l ON l.person_id = p.id AND $2::date BETWEEN l.from_day AND l.until_day
     WHERE CASE WHEN $1::uuid IS NULL THEN p.ended_on IS NULL AND p.may_lead
       ELSE EXISTS (SELECT FROM assignment a JOIN visit v ON v.id = a.visit_id WHERE a.person_id = p.id AND v.job_id = $1::uuid AND v.live) END
     ORDER BY p.name COLLATE "en-x-icu", l.number`,
    [jobId, day],
  );
