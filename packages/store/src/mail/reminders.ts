// Who is to be reminded of what, and was not yet. Reads across areas: it writes nothing.
import type { Reader } from '../database.ts';

const NOT_BAD = `NOT EXISTS (SELECT FROM bad_address b WHERE b.address = lower(w.email) AND b.cleared_at IS NULL)`;
const MOST_REMINDERS = 3;

/** Signers of booked jobs ahead who got their link before `sentBefore` and have not signed; at most three reminders each. */
export const unsignedSince = async (reader: Reader, ask: { now: Date; sentBefore: Date }): Promise<string[]> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT s.id::text AS id FROM agreement a JOIN signer s ON s.agreement_id = a.id JOIN party w ON w.id = s.party_id JOIN job j ON j.id = a.job_id
       WHERE j.state = 'booked' AND s.sent_at <= $2::timestamptz AND w.email IS NOT NULL AND ${NOT_BAD}
         AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) AND a.remedy_id IS NULL AND NOT EXISTS (SELECT FROM signature g WHERE g.signer_id = s.id)
         AND s.revoked_at IS NULL AND NOT EXISTS (SELECT FROM signer_answer x WHERE x.signer_id = s.id)
         AND EXISTS (SELECT FROM visit v WHERE v.job_id = j.id AND v.state = 'booked' AND v.starts_at > $1::timestamptz)
         AND (SELECT count(*) FROM outgoing_mail m WHERE m.about_kind = 'job' AND m.about_id = j.id AND starts_with(m.message_key, 'agreement-reminder:' || s.id::text)) < ${MOST_REMINDERS}
       ORDER BY s.id LIMIT 50`,
      [ask.now.toISOString(), ask.sentBefore.toISOString()],
    )
  ).map(({ id }) => id);

export type OpenInvoice = { id: string; email: string; name: string; when: 'before' | 'overdue' };

/** Key of a reminder to pay: one before and one after each due day. */
export const paymentKey = (invoiceId: string, dueOn: string, when: OpenInvoice['when']): string =>
  `reminder-payment:${invoiceId}:${dueOn}:${when}`;

/**
 * Issued invoices that are due within `before` days, or are overdue for `overdue` days; 0 switches either off. Issued today is too fresh
 * for a reminder.
 */
export const unpaidAround = (
  reader: Reader,
  ask: { today: string; zone: string; before: number; overdue: number },
): Promise<OpenInvoice[]> =>
  reader.rows<OpenInvoice>(
    `SELECT * FROM (SELECT i.id::text AS id, w.email, w.name, i.due_on, CASE WHEN i.due_on >= $1::date THEN 'before' ELSE 'overdue' END AS when
       FROM invoice i JOIN party w ON w.id = i.payer_id
       WHERE i.state = 'issued' AND w.email IS NOT NULL AND ${NOT_BAD} AND (i.issued_at AT TIME ZONE $2)::date < $1::date
         AND (($3::int > 0 AND i.due_on BETWEEN $1::date AND $1::date + $3::int) OR ($4::int > 0 AND i.due_on <= $1::date - $4::int))) due
     WHERE NOT EXISTS (SELECT FROM outgoing_mail m WHERE m.message_key = 'reminder-payment:' || due.id || ':' || due.due_on::text || ':' || due.when) ORDER BY id LIMIT 50`,
    [ask.today, ask.zone, ask.before, ask.overdue],
  );

/** Visits booked for the day whose clients were not reminded yet of this start. */
export const visitsOn = async (reader: Reader, ask: { day: string; zone: string }): Promise<string[]> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT v.id::text AS id FROM visit v JOIN job j ON j.id = v.job_id WHERE v.state = 'booked' AND j.state = 'booked' AND (v.starts_at AT TIME ZONE $2)::date = $1::date
         AND NOT EXISTS (SELECT FROM outgoing_mail m WHERE m.about_kind = 'job' AND m.about_id = j.id AND starts_with(m.message_key, 'reminder-day:' || v.id::text || ':' || extract(epoch FROM v.starts_at)::bigint))
         AND EXISTS (SELECT FROM job_party r JOIN party w ON w.id = r.party_id WHERE r.job_id = j.id AND r.role = 'client' AND w.email IS NOT NULL AND ${NOT_BAD})
       ORDER BY v.starts_at LIMIT 50`,
      [ask.day, ask.zone],
    )
  ).map(({ id }) => id);

/** Which of these mails were queued before, by their keys. */
export const keysQueued = async (reader: Reader, keys: readonly string[]): Promise<ReadonlySet<string>> =>
  new Set(
    (await reader.rows<{ key: string }>('SELECT message_key AS key FROM outgoing_mail WHERE message_key = ANY($1::text[])', [keys])).map(
      ({ key }) => key,
    ),
  );
