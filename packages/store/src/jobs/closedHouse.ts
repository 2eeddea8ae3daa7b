// Visits at which a radon monitor is placed and whose house must be closed before.
import type { Reader } from '../database.ts';

export type ToClose = { jobId: string; visitId: string; startsAt: Date };

/** Booked visits with radon that start in (now, before), where somebody has an address and nobody was told for this start yet. */
export const housesToClose = (reader: Reader, q: { now: Date; before: Date }): Promise<ToClose[]> =>
  reader.rows<ToClose>(
    `SELECT v.job_id::text AS "jobId", v.id::text AS "visitId", v.starts_at AS "startsAt" FROM visit v JOIN job j ON j.id = v.job_id AND j.kind = v.kind
     WHERE v.live AND v.state = 'booked' AND v.starts_at > $1::timestamptz AND v.starts_at < $2::timestamptz
       AND EXISTS (SELECT FROM job_service s WHERE s.job_id = j.id AND s.service_key = 'radon')
       AND EXISTS (SELECT FROM job_party r JOIN party p ON p.id = r.party_id WHERE r.job_id = j.id AND r.role IN ('client', 'occupant', 'seller') AND p.email IS NOT NULL)
       AND NOT EXISTS (SELECT FROM outgoing_mail m WHERE m.about_id = j.id AND m.message_key LIKE 'closed-house:' || v.id || ':' || extract(epoch FROM v.starts_at)::bigint || ':%')
     ORDER BY v.starts_at, v.id`,
    [q.now.toISOString(), q.before.toISOString()],
  );
