// A page of the outbox, newest first.
import { opensAccount, withoutKeys } from '@backsight/domain/mail/retry';
import type { Reader } from '@backsight/store/database';
import { listMail, type MailState } from '@backsight/store/mail';

/** Private links are shown only in mail that no server takes, where the office has to pass them on itself. */
export async function readOutbox(reader: Reader, ask: { before: string | null; state: MailState | null; limit: number }) {
  const rows = await listMail(reader, { ...ask, limit: ask.limit + 1 });
  const items = rows.slice(0, ask.limit).map((m) => ({
    ...m,
    body: m.state === 'kept' && !opensAccount(m.body) ? m.body : withoutKeys(m.body),
    nextTryAt: m.nextTryAt.toISOString(),
    sentAt: m.sentAt?.toISOString() ?? null,
    recordedAt: m.recordedAt.toISOString(),
  }));
  return { items, next: rows.length > ask.limit ? items.at(-1)!.id : null };
}
