// The firm's own wordings of its mail, with their history.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type Wording = { subject: string; body: string };
/** Who reviewed the words, and the day. */
export type WordingReview = { attorney: string; on: string };
export type WordingRow = {
  id: string;
  kind: string;
  subject: string | null;
  body: string | null;
  attorney: string | null;
  attorneyOn: string | null;
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
    `SELECT w.id::text AS id, w.kind, w.subject, w.body, w.attorney, w.attorney_on::text AS "attorneyOn", p.name AS "recordedBy", w.recorded_at AS "recordedAt" FROM mail_wording w JOIN person p ON p.id = w.recorded_by ORDER BY w.recorded_at DESC, w.id DESC`,
  );

/** The review of the wording that counts; null where nobody reviewed it. */
export async function reviewOfWording(reader: Reader, kind: string): Promise<WordingReview | null> {
  const [row] = await reader.rows<WordingReview | { attorney: null }>(
    `SELECT attorney, attorney_on::text AS "on" FROM mail_wording WHERE kind = $1 ORDER BY recorded_at DESC, id DESC LIMIT 1`,
    [kind],
  );
  return row && row.attorney !== null ? row : null;
}

export async function saveWording(tx: Tx, { attorneyOn, ...row }: WordingRow): Promise<void> {
  await tx.db.mailWording.create({ data: { ...row, attorneyOn: attorneyOn === null ? null : dayIn(attorneyOn) } });
}
