// Whether money about a job may leave while a callback is open.
import type { Reader } from '../database.ts';

/** Whether an open callback about the job has neither the insurer's consent nor the owner's reason on file. Questions and near-misses ask for none. */
export async function openWithoutClearance(reader: Reader, jobId: string): Promise<boolean> {
  const found = await reader.rows(
    `SELECT FROM callback c WHERE c.job_id = $1::uuid AND c.state <> 'closed' AND c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL
       AND NOT EXISTS (SELECT FROM clearance l WHERE l.callback_id = c.id) LIMIT 1`,
    [jobId],
  );
  return found.length > 0;
}
