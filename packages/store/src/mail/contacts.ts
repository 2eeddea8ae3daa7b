// Contacts with people on a job: what was logged, beside the mails; and whom to call.
import type { Assistance, Channel, ContactOutcome } from '@backsight/domain/mail/contact';
import type { PartyRole } from '@backsight/domain/jobs/words';
import type { Reader, Tx } from '../database.ts';

export type NewContact = {
  id: string;
  jobId: string;
  callbackId: string | null;
  partyId: string;
  channel: Channel;
  outcome: ContactOutcome;
  textId: string | null;
  actorId: string;
  happenedAt: Date;
  recordedAt: Date;
};

/** Adds a contact. Constraint: contact_note_known. */
export async function saveContact(tx: Tx, row: NewContact): Promise<void> {
  await tx.db.contactNote.create({ data: row });
}

/** Who may be a contact of a job: the people on it, and who brought a callback against it. Null when there is no such job. */
export async function contactableOf(reader: Reader, jobId: string): Promise<string[] | null> {
  const [row] = await reader.rows<{ ids: string[] }>(
    `SELECT array(SELECT party_id::text FROM job_party WHERE job_id = j.id UNION SELECT party_id::text FROM callback WHERE job_id = j.id AND party_id IS NOT NULL) AS ids FROM job j WHERE j.id = $1::uuid`,
    [jobId],
  );
  return row?.ids ?? null;
}

/** One line: a mail, or a logged contact. `state` is the outcome, or the state of the mail. */
export type ContactRow = {
  id: string;
  channel: Channel | 'mail';
  who: string;
  state: string;
  words: string | null;
  by: string | null;
  callbackNumber: number | null;
  at: Date;
};

/** Everything that was said with the people of a job, the newest first; what belongs to a matter for the owner alone only for an owner. */
export const contactsOfJob = (reader: Reader, jobId: string, owner: boolean): Promise<ContactRow[]> =>
  reader.rows<ContactRow>(
    `SELECT n.id::text AS id, n.channel, w.name AS who, n.outcome AS state, t.body AS words, p.name AS by, c.number AS "callbackNumber", n.happened_at AS at
     FROM contact_note n JOIN party w ON w.id = n.party_id JOIN person p ON p.id = n.actor_id LEFT JOIN kept_text t ON t.id = n.text_id LEFT JOIN callback c ON c.id = n.callback_id
     WHERE n.job_id = $1::uuid AND (c.id IS NULL OR NOT c.owner_only OR $2::boolean)
     UNION ALL
     SELECT m.id::text, 'mail', m.to_name, m.state, m.subject, NULL, c.number, coalesce(m.sent_at, m.recorded_at)
     FROM outgoing_mail m LEFT JOIN callback c ON m.about_kind = 'callback' AND c.id = m.about_id
     WHERE (c.id IS NULL OR NOT c.owner_only OR $2::boolean) AND (m.about_kind, m.about_id) IN (SELECT 'job', $1::uuid UNION ALL SELECT 'callback', id FROM callback WHERE job_id = $1::uuid
       UNION ALL SELECT 'invoice', id FROM invoice WHERE job_id = $1::uuid UNION ALL SELECT 'report', id FROM report WHERE job_id = $1::uuid)
     ORDER BY at DESC, id DESC LIMIT 200`,
    [jobId, owner],
  );

export type ToCall = {
  jobId: string;
  jobNumber: number;
  address: string;
  startsAt: Date | null;
  endsAt: Date | null;
  partyId: string;
  name: string;
  role: PartyRole;
  phone: string | null;
  email: string | null;
  badAddress: boolean;
  language: string;
  assistance: Assistance;
  largePrint: boolean;
  last: { channel: Channel; outcome: ContactOutcome; at: string } | null;
};

const PERSON = `w.id::text AS "partyId", w.name, r.role, w.phone, w.email, EXISTS (SELECT FROM bad_address b WHERE b.address = lower(w.email) AND b.cleared_at IS NULL) AS "badAddress",
  w.language, w.assistance, w.large_print AS "largePrint",
  (SELECT jsonb_build_object('channel', n.channel, 'outcome', n.outcome, 'at', n.happened_at) FROM contact_note n WHERE n.job_id = j.id AND n.party_id = w.id ORDER BY n.happened_at DESC, n.id DESC LIMIT 1) AS last`;

/** The people of one job (`jobId`), or of every visit that begins between the two instants, by the beginning of the visit. */
export const peopleToCall = (reader: Reader, ask: { jobId: string | null; from: Date; to: Date }): Promise<ToCall[]> =>
  reader.rows<ToCall>(
    `SELECT j.id::text AS "jobId", j.number AS "jobNumber", a.address || ', ' || a.town AS address, v.starts_at AS "startsAt", v.ends_at AS "endsAt", ${PERSON}
     FROM job j JOIN property a ON a.id = j.property_id JOIN job_party r ON r.job_id = j.id JOIN party w ON w.id = r.party_id
     LEFT JOIN LATERAL (SELECT * FROM visit x WHERE x.job_id = j.id AND x.live ORDER BY x.state = 'ended', x.starts_at LIMIT 1) v ON true
     WHERE CASE WHEN $1::uuid IS NULL THEN j.state = 'booked' AND v.state = 'booked' AND v.starts_at >= $2::timestamptz AND v.starts_at < $3::timestamptz ELSE j.id = $1::uuid END
     ORDER BY v.starts_at, j.number, r.id LIMIT 300`,
    [ask.jobId, ask.from.toISOString(), ask.to.toISOString()],
  );
