// The firm's own wordings of its mail, with their history.
import type { Reader, Tx } from '../database.ts';

export type Wording = { subject: string; body: string };
export type WordingRow = {
  id: string;
  kind: string;
  subject: string | null;
  body: string | null;
  recordedBy: string;
  recordedAt: Date;
};

/** The firm's wording of one kind of mail; null where it has none, or went back to the built-in one. */
export async function findWording(reader: Reader, kind: string): Promise<Wording | null> {
  const [row] = await reader.rows<{ subject: string | null; body: string | null }>(
    'SELECT subject, body FROM mail_wording WHERE kind = $1 ORDER BY recorded_at DESC, id DESC LIMIT 1',
    [kind],
  );
  return row?.subject && row.body ? { subject: row.subject, body: row.body } : null;
}

/** Every wording that ever was, the newest first. */
export const listWordings = (reader: Reader): Promise<WordingRow[]> =>
  reader.rows<WordingRow>(
    `SELECT w.id::text AS id, w.kind, w.subject, w.body, p.name AS "recordedBy", w.recorded_at AS "recordedAt" FROM mail_wording w JOIN person p ON p.id = w.recorded_by ORDER BY w.recorded_at DESC, w.id DESC`,
  );

export async function saveWording(tx: Tx, row: WordingRow): Promise<void> {
  await tx.db.mailWording.create({ data: row });
}
