// Opinions beside the conclusion: who confirmed it, permission for error kinds, accounts of the pair, counsel's marks.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type NewConfirmation = {
  id: string;
  conclusionId: string;
  way: 'person' | 'outside';
  textId: string | null;
  actorId: string;
  at: Date;
};

/** Constraints: conclusion_confirmation_conclusion_id_key, own_conclusion, confirmation_known. */
export async function saveConfirmation(tx: Tx, { at, ...row }: NewConfirmation): Promise<void> {
  await tx.db.conclusionConfirmation.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

/** Ids of people of the firm who may judge a callback: owners and lead inspectors at work there now. */
export const judgesNow = async (reader: Reader): Promise<string[]> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT DISTINCT p.id::text AS id FROM person p JOIN person_role r ON r.person_id = p.id WHERE p.ended_on IS NULL AND r.role IN ('owner', 'lead_inspector')`,
    )
  ).map(({ id }) => id);

export type PermissionRow = { id: string; allowed: boolean; attorney: string | null; askedOn: string | null; by: string; at: Date };

/** The newest permission; null while nobody ever said anything, which is the same as off. */
export const errorKindPermission = async (reader: Reader): Promise<PermissionRow | null> =>
  (
    await reader.rows<PermissionRow>(
      `SELECT e.id::text AS id, e.allowed, t.body AS attorney, e.asked_on::text AS "askedOn", p.name AS by, e.happened_at AS at FROM error_kind_permission e JOIN person p ON p.id = e.actor_id
       LEFT JOIN kept_text t ON t.id = e.text_id ORDER BY e.happened_at DESC, e.id DESC LIMIT 1`,
    )
  )[0] ?? null;

/** Constraint: error_kind_permission_whole. */
export async function savePermission(
  tx: Tx,
  { at, askedOn, ...row }: { id: string; allowed: boolean; textId: string | null; askedOn: string | null; actorId: string; at: Date },
): Promise<void> {
  await tx.db.errorKindPermission.create({
    data: { ...row, askedOn: askedOn === null ? null : dayIn(askedOn), happenedAt: at, recordedAt: at },
  });
}

export type RequestRow = { id: string; personId: string; name: string; askedBy: string; askedAt: Date; given: number };

/** Who was asked for an account, and how many each has given. */
export const accountRequests = (reader: Reader, callbackId: string): Promise<RequestRow[]> =>
  reader.rows<RequestRow>(
    `SELECT q.id::text AS id, q.person_id::text AS "personId", p.name, b.name AS "askedBy", q.happened_at AS "askedAt", (SELECT count(*)::int FROM account a WHERE a.request_id = q.id) AS given
     FROM account_request q JOIN person p ON p.id = q.person_id JOIN person b ON b.id = q.asked_by WHERE q.callback_id = $1::uuid ORDER BY q.happened_at, p.name`,
    [callbackId],
  );

/** Constraint: account_request_callback_id_person_id_key. */
export async function saveRequest(
  tx: Tx,
  { at, ...row }: { id: string; callbackId: string; personId: string; askedBy: string; at: Date },
): Promise<void> {
  await tx.db.accountRequest.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

export type AccountRow = { id: string; personId: string; name: string; seq: number; seen: string | null; did: string | null; at: Date };

/** Accounts in the order of the people and of giving; `personId` null is everybody's. Words are null once erased. */
export const accountsOf = (reader: Reader, callbackId: string, personId: string | null): Promise<AccountRow[]> =>
  reader.rows<AccountRow>(
    `SELECT a.id::text AS id, q.person_id::text AS "personId", p.name, a.seq, s.body AS seen, d.body AS did, a.happened_at AS at
     FROM account a JOIN account_request q ON q.id = a.request_id JOIN person p ON p.id = q.person_id JOIN kept_text s ON s.id = a.seen_text_id JOIN kept_text d ON d.id = a.did_text_id
     WHERE q.callback_id = $1::uuid AND ($2::uuid IS NULL OR q.person_id = $2::uuid) ORDER BY p.name, a.seq`,
    [callbackId, personId],
  );

/** Constraint: account_request_id_seq_key. */
export async function saveAccount(
  tx: Tx,
  { at, ...row }: { id: string; requestId: string; seq: number; seenTextId: string; didTextId: string; at: Date },
): Promise<void> {
  await tx.db.account.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

export type MarkRow = { id: string; counsel: string | null; requestedOn: string; by: string; at: Date };
export const counselMarks = (reader: Reader, callbackId: string): Promise<MarkRow[]> =>
  reader.rows<MarkRow>(
    `SELECT m.id::text AS id, t.body AS counsel, m.requested_on::text AS "requestedOn", p.name AS by, m.happened_at AS at FROM counsel_mark m JOIN person p ON p.id = m.actor_id
     JOIN kept_text t ON t.id = m.text_id WHERE m.callback_id = $1::uuid ORDER BY m.happened_at DESC, m.id DESC`,
    [callbackId],
  );

export async function saveMark(
  tx: Tx,
  { at, requestedOn, ...row }: { id: string; callbackId: string; textId: string; requestedOn: string; actorId: string; at: Date },
): Promise<void> {
  await tx.db.counselMark.create({ data: { ...row, requestedOn: dayIn(requestedOn), happenedAt: at, recordedAt: at } });
}
