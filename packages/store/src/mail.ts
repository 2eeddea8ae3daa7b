// Outgoing mail as rows: written with the act that causes it, sent later by the worker, never twice under one key.
import { headerText } from '@backsight/domain/mail/retry';
import type { Reader, Tx } from './database.ts';

/** A file of the store that goes along. */
export type Attached = { sha256: string; name: string };
export type NewMail = {
  id: string;
  messageKey: string;
  toAddress: string;
  toName: string;
  subject: string;
  body: string;
  aboutKind: string;
  aboutId: string;
  at: Date;
  kind?: string;
  urgent?: boolean;
  calendar?: string | null;
  resendOf?: string | null;
  attachments?: readonly Attached[];
};

/** Queues a mail. The same `messageKey` is queued only once, ever. */
export async function queueMail(tx: Tx, m: NewMail): Promise<void> {
  const { at, attachments = [], ...rest } = m;
  const toHeader = { toAddress: headerText(m.toAddress), toName: headerText(m.toName), subject: headerText(m.subject) };
  const row = { ...rest, ...toHeader, state: 'waiting', nextTryAt: at, recordedAt: at };
  if (attachments.length === 0) {
    await tx.db.outgoingMail.createMany({ data: [row], skipDuplicates: true });
    return;
  }
  await tx.db.outgoingMail.create({ data: row });
  await tx.db.mailAttachment.createMany({ data: attachments.map((one, position) => ({ ...one, mailId: m.id, position })) });
}

/** The newest mail about a thing whose key begins so, with its state. */
export const newestMail = async (
  reader: Reader,
  ask: { aboutKind: string; aboutId: string; keys: readonly string[] },
): Promise<{ state: string; body: string } | undefined> =>
  (
    await reader.rows<{ state: string; body: string }>(
      `SELECT state, body FROM outgoing_mail WHERE about_kind = $1 AND about_id = $2::uuid AND message_key LIKE ANY ($3::text[])
       ORDER BY recorded_at DESC, id DESC LIMIT 1`,
      [ask.aboutKind, ask.aboutId, ask.keys.map((key) => `${key}%`)],
    )
  )[0];

export type WaitingMail = {
  id: string;
  messageKey: string;
  toAddress: string;
  toName: string;
  subject: string;
  body: string;
  calendar: string | null;
  attempts: number;
  /** How often it may have been accepted without that having been noted. */
  maybeTwice: number;
  attachments: (Attached & { mediaType: string })[];
};

/**
 * Takes the next mail whose time has come, so that no other worker takes it before `leaseUntil`. One whose lease ran out unnoted may have
 * been accepted: that is counted.
 */
export const takeWaitingMail = async (
  tx: Tx,
  ask: { now: Date; leaseUntil: Date; urgentOnly: boolean },
): Promise<WaitingMail | undefined> =>
  (
    await tx.rows<WaitingMail>(
      `WITH next AS (SELECT id, lease_until FROM outgoing_mail WHERE state = 'waiting' AND next_try_at <= $1::timestamptz AND (lease_until IS NULL OR lease_until <= $1::timestamptz) AND (urgent OR NOT $3::boolean)
         ORDER BY urgent DESC, next_try_at, id LIMIT 1 FOR UPDATE SKIP LOCKED)
       UPDATE outgoing_mail m SET lease_until = $2::timestamptz, maybe_twice = m.maybe_twice + (next.lease_until IS NOT NULL)::int FROM next WHERE m.id = next.id
       RETURNING m.id::text AS id, m.message_key AS "messageKey", m.to_address AS "toAddress", m.to_name AS "toName", m.subject, m.body, m.calendar, m.attempts, m.maybe_twice AS "maybeTwice",
         coalesce((SELECT jsonb_agg(jsonb_build_object('sha256', a.sha256, 'name', a.name, 'mediaType', f.media_type) ORDER BY a.position) FROM mail_attachment a JOIN stored_file f ON f.sha256 = a.sha256 WHERE a.mail_id = m.id), '[]'::jsonb) AS attachments`,
      [ask.now.toISOString(), ask.leaseUntil.toISOString(), ask.urgentOnly],
    )
  )[0];

export type TryResult = {
  state: 'sent' | 'kept' | 'waiting' | 'given_up' | 'refused';
  error?: string;
  nextTryAt?: Date;
  body?: string;
  at: Date;
  /** false: no server was reached, so the letter itself was not tried. */
  counts?: boolean;
};

/** Writes down how a try ended. A failure is noted only under its own lease; an acceptance always, and only once. */
export async function noteMail(tx: Tx, id: string, leaseUntil: Date, result: TryResult): Promise<void> {
  const accepted = result.state === 'sent' || result.state === 'kept';
  await tx.db.outgoingMail.updateMany({
    where: { id, state: 'waiting', ...(accepted ? {} : { leaseUntil }) },
    data: {
      state: result.state,
      attempts: { increment: result.counts === false ? 0 : 1 },
      lastError: result.error ?? null,
      leaseUntil: null,
      ...(result.body === undefined ? {} : { body: result.body }),
      ...(result.nextTryAt ? { nextTryAt: result.nextTryAt } : {}),
      ...(result.state === 'sent' ? { sentAt: result.at } : {}),
    },
  });
}

export type MailState = 'waiting' | 'sent' | 'kept' | 'given_up' | 'refused' | 'bounced';
export type MailRow = {
  id: string;
  kind: string;
  toAddress: string;
  toName: string;
  subject: string;
  body: string;
  state: MailState;
  urgent: boolean;
  attempts: number;
  maybeTwice: number;
  lastError: string | null;
  nextTryAt: Date;
  sentAt: Date | null;
  resendOf: string | null;
  invitation: boolean;
  attachments: string[];
  aboutKind: string;
  aboutId: string;
  recordedAt: Date;
};

export const MAIL = `SELECT m.id::text AS id, m.kind, m.to_address AS "toAddress", m.to_name AS "toName", m.subject, m.body, m.state, m.urgent, m.attempts, m.maybe_twice AS "maybeTwice", m.last_error AS "lastError",
  m.next_try_at AS "nextTryAt", m.sent_at AS "sentAt", m.resend_of::text AS "resendOf", m.calendar IS NOT NULL AS invitation,
  coalesce((SELECT array_agg(a.name ORDER BY a.position) FROM mail_attachment a WHERE a.mail_id = m.id), '{}') AS attachments,
  m.about_kind AS "aboutKind", m.about_id::text AS "aboutId", m.recorded_at AS "recordedAt" FROM outgoing_mail m`;

/** Newest mail first; `before` is the cursor of the page, `state` narrows it. */
export const listMail = (reader: Reader, ask: { before: string | null; state: MailState | null; limit: number }): Promise<MailRow[]> =>
  reader.rows<MailRow>(
    `${MAIL} WHERE ($1::uuid IS NULL OR m.id < $1::uuid) AND ($3::text IS NULL OR m.state = $3) ORDER BY m.id DESC LIMIT $2::int`,
    [ask.before, ask.limit, ask.state],
  );

/** The state of a mail, its row locked; null when there is none. */
export const lockMail = async (tx: Tx, id: string): Promise<{ state: MailState; toAddress: string } | null> =>
  (
    await tx.rows<{ state: MailState; toAddress: string }>(
      'SELECT state, to_address AS "toAddress" FROM outgoing_mail WHERE id = $1::uuid FOR UPDATE',
      [id],
    )
  )[0] ?? null;

/** Puts a mail first in line again, with all its tries before it. */
export async function tryAgainAt(tx: Tx, id: string, at: Date): Promise<void> {
  await tx.db.outgoingMail.update({ where: { id }, data: { state: 'waiting', nextTryAt: at, attempts: 0 } });
}

/** Notes that a mail which was accepted came back. */
export async function noteBounce(tx: Tx, id: string, reason: string): Promise<void> {
  await tx.db.outgoingMail.update({ where: { id }, data: { state: 'bounced', lastError: reason } });
}

/** Everything of a mail that a new one to the same person needs. */
export const findToResend = async (reader: Reader, id: string): Promise<(NewMail & { state: MailState }) | null> =>
  (
    await reader.rows<NewMail & { state: MailState }>(
      `SELECT m.id::text AS id, m.message_key AS "messageKey", m.kind, m.to_address AS "toAddress", m.to_name AS "toName", m.subject, m.body, m.calendar, m.state, m.about_kind AS "aboutKind", m.about_id::text AS "aboutId", m.recorded_at AS at,
         coalesce((SELECT jsonb_agg(jsonb_build_object('sha256', a.sha256, 'name', a.name) ORDER BY a.position) FROM mail_attachment a WHERE a.mail_id = m.id), '[]'::jsonb) AS attachments
       FROM outgoing_mail m WHERE m.id = $1::uuid`,
      [id],
    )
  )[0] ?? null;
