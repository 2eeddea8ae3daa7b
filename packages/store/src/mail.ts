// Outgoing mail as rows: written with the act that causes it, sent later by the worker, never twice under one key.
import type { Reader, Tx } from './database.ts';

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
};

/** Queues a mail. The same `messageKey` is queued only once, ever. */
export async function queueMail(tx: Tx, m: NewMail): Promise<void> {
  const { at, ...rest } = m;
  await tx.db.outgoingMail.createMany({ data: [{ ...rest, state: 'waiting', nextTryAt: at, recordedAt: at }], skipDuplicates: true });
}

export type WaitingMail = {
  id: string;
  messageKey: string;
  toAddress: string;
  toName: string;
  subject: string;
  body: string;
  attempts: number;
};

/** Takes up to `limit` mails whose time has come, locked so that two workers never take the same one. */
export const takeWaitingMail = (tx: Tx, now: Date, limit: number): Promise<WaitingMail[]> =>
  tx.rows<WaitingMail>(
    `SELECT id::text AS id, message_key AS "messageKey", to_address AS "toAddress", to_name AS "toName", subject, body, attempts
     FROM outgoing_mail WHERE state = 'waiting' AND next_try_at <= $1::timestamptz ORDER BY next_try_at LIMIT ${Math.trunc(limit)} FOR UPDATE SKIP LOCKED`,
    [now.toISOString()],
  );

/** Writes down how a try ended. */
export async function noteMail(
  tx: Tx,
  id: string,
  result: { state: 'sent' | 'kept' | 'waiting' | 'given_up'; error?: string; nextTryAt?: Date; body?: string; at: Date },
): Promise<void> {
  await tx.db.outgoingMail.update({
    where: { id },
    data: {
      state: result.state,
      attempts: { increment: 1 },
      lastError: result.error ?? null,
      ...(result.body === undefined ? {} : { body: result.body }),
      ...(result.nextTryAt ? { nextTryAt: result.nextTryAt } : {}),
      ...(result.state === 'sent' ? { sentAt: result.at } : {}),
    },
  });
}

export type MailRow = {
  id: string;
  toAddress: string;
  toName: string;
  subject: string;
  body: string;
  state: 'waiting' | 'sent' | 'kept' | 'given_up';
  attempts: number;
  lastError: string | null;
  nextTryAt: Date;
  sentAt: Date | null;
  aboutKind: string;
  aboutId: string;
  recordedAt: Date;
};

/** Newest mail first; `before` is the cursor of the page. */
export const listMail = (reader: Reader, before: string | null, limit: number): Promise<MailRow[]> =>
  reader.rows<MailRow>(
    `SELECT id::text AS id, to_address AS "toAddress", to_name AS "toName", subject, body, state, attempts, last_error AS "lastError", next_try_at AS "nextTryAt",
       sent_at AS "sentAt", about_kind AS "aboutKind", about_id::text AS "aboutId", recorded_at AS "recordedAt"
     FROM outgoing_mail WHERE $1::uuid IS NULL OR id < $1::uuid ORDER BY id DESC LIMIT $2::int`,
    [before, limit],
  );

/** Puts a mail that waits or was given up first in line again, with all its tries before it; answers the state that it was in, or null. */
export async function tryAgainAt(tx: Tx, id: string, at: Date): Promise<string | null> {
  const [row] = await tx.rows<{ state: string }>('SELECT state FROM outgoing_mail WHERE id = $1::uuid FOR UPDATE', [id]);
  if (row && ['waiting', 'given_up'].includes(row.state))
    await tx.db.outgoingMail.update({ where: { id }, data: { state: 'waiting', nextTryAt: at, attempts: 0 } });
  return row?.state ?? null;
}
