// After a restore: what must not go on as if no time had passed.
import { connected } from '../told.ts';

/** Ends every session, and leaves mail that waited to people; new counts for the planner of queries. Answers how many mails waited. */
export async function settle(url: string, madeAt: string, now: Date): Promise<{ mails: number }> {
  const client = await connected(url);
  try {
    await client.query('UPDATE session SET ended_at = $1::timestamptz WHERE ended_at IS NULL', [now.toISOString()]);
    const { rowCount } = await client.query(
      `UPDATE outgoing_mail SET state = 'given_up', lease_until = NULL, last_error = $1 WHERE state = 'waiting'`,
      [`It waited when the backup of ${madeAt} was made, and may have been sent since. Send it again if it was not.`],
    );
    await client.query('ANALYZE');
    return { mails: rowCount ?? 0 };
  } finally {
    await client.end();
  }
}
