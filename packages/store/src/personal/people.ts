// One person: where they are found, what they are tied to, and what is taken out of their own rows.
import { GONE } from '@backsight/domain/personal/inventory';
import type { AskedHow, JobTie, PartyFacts, StaffFacts, Subject } from '@backsight/domain/personal/erasure';
import { execute, type Reader, type Tx } from '../database.ts';
import { PARTY } from '../find.ts';

export type Found = { subject: Subject; id: string; name: string; about: string };

/** People of both kinds by a part of name, address or phone, which the index finds in all of them together; the newest jobs say who they are. */
export const findPeople = (reader: Reader, words: string): Promise<Found[]> =>
  reader.rows<Found>(
    `SELECT * FROM (
       (SELECT 'party' AS subject, p.id::text AS id, p.name, concat_ws(', ', p.email, p.phone, (SELECT 'job ' || string_agg(number::text, ', ' ORDER BY number DESC) FROM (SELECT DISTINCT j.number FROM job_party x JOIN job j ON j.id = x.job_id WHERE x.party_id = p.id ORDER BY 1 DESC LIMIT 3) n)) AS about
        FROM party p WHERE p.name <> $2 AND ${PARTY('p')} LIKE lower($1) AND (p.name ILIKE $1 OR p.email ILIKE $1 OR p.phone ILIKE $1) ORDER BY p.name, p.id LIMIT 20)
       UNION ALL
       (SELECT 'person', p.id::text, p.name, CASE WHEN p.ended_on IS NULL THEN 'works here' ELSE 'until ' || p.ended_on END FROM person p WHERE p.name <> $2 AND (p.name ILIKE $1 OR p.email ILIKE $1) ORDER BY p.name LIMIT 20)) x`,
    [`%${words.replaceAll(/[\\%_]/g, (one) => `\\${one}`)}%`, GONE],
  );

/** Same address or phone, as an inquiry or a mail has it. $2 and $3 may be empty. */
const SAME = `((q.email <> '' AND lower(q.email) = lower($2)) OR (q.phone <> '' AND $3 <> '' AND regexp_replace(q.phone, '\\D', '', 'g') = regexp_replace($3, '\\D', '', 'g')))`;
const OTHER_MAIL = `lower(m.to_address) = lower($1) AND NOT EXISTS (SELECT FROM jobs_of_row('outgoing_mail', to_jsonb(m)))`;

const TIES = `SELECT j.id::text AS id, j.number,
    (EXISTS (SELECT FROM job_party x WHERE x.job_id = j.id AND x.party_id = $1::uuid AND (x.role IN ('client', 'payer') OR x.may_receive_report))
      OR EXISTS (SELECT FROM signer s JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = j.id AND s.party_id = $1::uuid)
      OR EXISTS (SELECT FROM report_delivery d JOIN report r ON r.id = d.report_id WHERE r.job_id = j.id AND d.party_id = $1::uuid)
      OR EXISTS (SELECT FROM invoice i WHERE i.job_id = j.id AND i.payer_id = $1::uuid)
      OR EXISTS (SELECT FROM callback c WHERE c.job_id = j.id AND c.party_id = $1::uuid)) AS bound,
    k.until::text AS until, k.held
  FROM job j CROSS JOIN LATERAL keep_until('job', j.id) k
  WHERE j.id IN (SELECT job_id FROM job_party WHERE party_id = $1::uuid UNION SELECT job_id FROM invoice WHERE payer_id = $1::uuid UNION SELECT job_id FROM callback WHERE party_id = $1::uuid)
    AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'job' AND d.thing_id = j.id) ORDER BY j.number`;

type PartyRow = { name: string; email: string | null; phone: string | null; wishes: string; askOwner: string | null };

export async function partyFacts(reader: Reader, id: string): Promise<PartyFacts | null> {
  const [p] = await reader.rows<PartyRow>('SELECT name, email, phone, wishes, ask_owner AS "askOwner" FROM party WHERE id = $1::uuid', [
    id,
  ]);
  if (!p) return null;
  const jobs = await reader.rows<JobTie>(TIES, [id]);
  const [n] = await reader.rows<{ inquiries: number; bars: number; otherMail: number }>(
    `SELECT (SELECT count(*)::int FROM inquiry q WHERE q.job_id IS NULL AND ${SAME}) AS inquiries, (SELECT count(*)::int FROM person_party_bar WHERE party_id = $1::uuid AND reason IS NOT NULL) AS bars,
       (SELECT count(*)::int FROM outgoing_mail m WHERE $2 <> '' AND ${OTHER_MAIL.replaceAll('$1', '$2')}) AS "otherMail"`,
    [id, p.email ?? '', p.phone ?? ''],
  );
  return { name: p.name, contact: Boolean(p.email ?? p.phone ?? p.askOwner) || p.wishes !== '', jobs, ...n! };
}

export type StaffRow = StaffFacts & { ended: boolean };

export const staffFacts = async (reader: Reader, id: string): Promise<StaffRow | null> =>
  (
    await reader.rows<StaffRow>(
      `SELECT p.name, p.ended_on IS NOT NULL AS ended, (SELECT until::text FROM keep_until('staff', p.id)) AS "papersUntil", EXISTS (SELECT FROM disposal d WHERE d.kind = 'staff' AND d.thing_id = p.id) AS "papersGone",
         p.phone <> $2 AS contact, (SELECT count(*)::int FROM kept_search s WHERE s.person_id = p.id AND s.name NOT LIKE $2 || '%') AS searches,
         (SELECT count(DISTINCT v.job_id)::int FROM assignment a JOIN visit v ON v.id = a.visit_id WHERE a.person_id = p.id AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'job' AND d.thing_id = v.job_id)) AS "keptJobs"
       FROM person p WHERE p.id = $1::uuid`,
      [id, GONE],
    )
  )[0] ?? null;

/** Phone, address, wishes and notes of somebody outside; private links that are open end. */
export async function forgetContact(tx: Tx, id: string, at: Date): Promise<void> {
  await tx.db.signer.updateMany({ where: { partyId: id, revokedAt: null, signature: null }, data: { revokedAt: at } });
  await execute(
    tx,
    `UPDATE bad_address SET address = $2, reason = '', cleared_at = coalesce(cleared_at, $3::timestamptz) WHERE address = (SELECT lower(email) FROM party WHERE id = $1::uuid)`,
    id,
    GONE,
    at,
  );
  await tx.db.party.update({ where: { id }, data: { email: null, phone: null, wishes: '', askOwner: null } });
}

export const forgetName = (tx: Tx, id: string): Promise<void> => tx.db.party.update({ where: { id }, data: { name: GONE } });

/** Prices asked and mail about no job, by the address and phone that are on file now. */
export async function forgetInquiries(tx: Tx, id: string): Promise<void> {
  await execute(
    tx,
    `UPDATE inquiry q SET caller = $4, phone = $4, email = '', address = $4, draft = '{}', note = '', outcome_note = '', outcome = coalesce(outcome, 'unknown'), closed_at = coalesce(closed_at, recorded_at), follow_up_on = NULL
     WHERE q.job_id IS NULL AND ${SAME} AND $1::uuid IS NOT NULL`,
    ...[id, ...(await addressOf(tx, id)), GONE],
  );
}
export async function forgetOtherMail(tx: Tx, id: string): Promise<void> {
  const [email] = await addressOf(tx, id);
  await execute(
    tx,
    `UPDATE outgoing_mail m SET to_address = $2, to_name = $2, subject = $2, body = $2, calendar = NULL, last_error = NULL, state = CASE WHEN state = 'waiting' THEN 'given_up' ELSE state END WHERE $1 <> '' AND ${OTHER_MAIL}`,
    ...[email, GONE],
  );
}
async function addressOf(tx: Tx, id: string): Promise<[string, string]> {
  const [p] = await tx.rows<{ email: string; phone: string }>(
    `SELECT coalesce(email, '') AS email, coalesce(phone, '') AS phone FROM party WHERE id = $1::uuid`,
    [id],
  );
  return [p?.email ?? '', p?.phone ?? ''];
}
export const forgetBars = async (tx: Tx, partyId: string): Promise<void> =>
  void (await tx.db.personPartyBar.updateMany({ where: { partyId }, data: { reason: null } }));

/** Where somebody who left lives and is reached, and everything that signs in. */
export async function forgetStaffContact(tx: Tx, id: string, at: Date): Promise<void> {
  for (const table of ['second_factor', 'recovery_code', 'password_link'])
    await execute(tx, `DELETE FROM ${table} WHERE person_id = $1::uuid`, id);
  await tx.db.session.updateMany({ where: { personId: id }, data: { agent: '' } });
  await tx.db.session.updateMany({ where: { personId: id, endedAt: null }, data: { endedAt: at } });
  await tx.db.calendarFeed.updateMany({ where: { personId: id, revokedAt: null }, data: { revokedAt: at } });
  await execute(
    tx,
    `UPDATE person SET email = 'gone-' || id || '@invalid', phone = $2, home_address = $2, home_lat = round(home_lat::numeric, 1), home_lon = round(home_lon::numeric, 1), password_hash = NULL WHERE id = $1::uuid`,
    ...[id, GONE],
  );
}
export const forgetSearches = async (tx: Tx, personId: string): Promise<void> =>
  void (await tx.db.keptSearch.deleteMany({ where: { personId } }));
export const forgetStaffName = (tx: Tx, id: string): Promise<void> => tx.db.person.update({ where: { id }, data: { name: GONE } });

type NewErasure = {
  id: string;
  subject: Subject;
  subjectId: string;
  askedOn: Date;
  askedHow: string;
  stays: object;
  actorId: string;
  recordedAt: Date;
};
export const saveErasure = (tx: Tx, row: NewErasure): Promise<void> => tx.db.erasure.create({ data: row });

export type ErasureRow = { id: string; askedOn: string; askedHow: AskedHow; by: string; at: Date };
export const erasuresOf = (reader: Reader, id: string): Promise<ErasureRow[]> =>
  reader.rows<ErasureRow>(
    `SELECT e.id::text AS id, e.asked_on::text AS "askedOn", e.asked_how AS "askedHow", p.name AS by, e.recorded_at AS at FROM erasure e JOIN person p ON p.id = e.actor_id WHERE e.subject_id = $1::uuid ORDER BY e.recorded_at DESC`,
    [id],
  );
