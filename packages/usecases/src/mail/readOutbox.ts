// A page of the outbox, newest first.
import { withoutKeys } from '@backsight/domain/mail/retry';
import type { Reader } from '@backsight/store/database';
import { listMail } from '@backsight/store/mail';

/** Private links are shown only in mail that no server takes, where the office has to pass them on itself. */
export async function readOutbox(reader: Reader, before: string | null, limit: number) {
  const rows = await listMail(reader, before, limit + 1);
  const items = rows.slice(0, limit).map((m) => ({
    ...m,
    body: m.state === 'kept' ? m.body : withoutKeys(m.body),
    nextTryAt: m.nextTryAt.toISOString(),
    sentAt: m.sentAt?.toISOString() ?? null,
    recordedAt: m.recordedAt.toISOString(),
  }));
  return { items, next: rows.length > limit ? items.at(-1)!.id : null };
}
