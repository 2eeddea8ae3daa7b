// The audit trail as the owner reads it.
import { listAudit } from '@backsight/store/audit';
import type { Reader } from '@backsight/store/database';
import { operationWords } from './operationWords.ts';

const PAGE = 50;

/** One page, newest first; `next` is the cursor of the following one. */
export async function readAudit(reader: Reader, q: { before?: string; thingKind?: string; thingId?: string }) {
  const rows = await listAudit(reader, {
    before: q.before ?? null,
    thingKind: q.thingKind ?? null,
    thingId: q.thingId ?? null,
    limit: PAGE + 1,
  });
  const items = rows.slice(0, PAGE).map((row) => ({ ...row, done: operationWords(row.operation), at: row.at.toISOString() }));
  return { items, next: rows.length > PAGE ? items.at(-1)!.id : null };
}
