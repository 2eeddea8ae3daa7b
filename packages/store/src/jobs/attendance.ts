// Who attends a visit for the client, and when.
import type { Arrives } from '@backsight/domain/jobs/words';
import type { Reader, Tx } from '../database.ts';

export type Attendance = { attendees: string; arrives: Arrives; arriveAt: Date | null };

/** With the instant at which they are to be there: the start, or the walk-through at the end, of the next or last visit that counts. */
export const findAttendance = async (reader: Reader, jobId: string): Promise<Attendance | null> =>
  (
    await reader.rows<Attendance>(
      `SELECT j.attendees, j.arrives, CASE j.arrives WHEN 'start' THEN coalesce(v.expected_at, v.starts_at)
         WHEN 'walk_through' THEN v.ends_at + coalesce(v.expected_at - v.starts_at, interval '0') - v.walk_through_minutes * interval '1 minute' END AS "arriveAt"
       FROM job j LEFT JOIN LATERAL (SELECT * FROM visit w WHERE w.job_id = j.id AND w.kind = j.kind AND w.live ORDER BY w.state = 'ended', w.starts_at DESC LIMIT 1) v ON true WHERE j.id = $1::uuid`,
      [jobId],
    )
  )[0] ?? null;

export async function setAttendance(tx: Tx, jobId: string, attendees: string, arrives: Arrives): Promise<void> {
  await tx.db.job.update({ where: { id: jobId }, data: { attendees, arrives } });
}
