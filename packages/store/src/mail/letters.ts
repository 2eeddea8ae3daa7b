// Letters as they were written.
import type { Reader } from '../database.ts';

export type LetterRow = { kind: string; toName: string; toAddress: string; subject: string; body: string; recordedAt: Date };

/** The newest mail of one of the kinds about something. */
export const newestLetter = async (
  reader: Reader,
  about: { kind: string; id: string },
  kinds: readonly string[],
): Promise<LetterRow | null> =>
  (
    await reader.rows<LetterRow>(
      `SELECT kind, to_name AS "toName", to_address AS "toAddress", subject, body, recorded_at AS "recordedAt" FROM outgoing_mail
       WHERE about_kind = $1 AND about_id = $2::uuid AND kind = ANY($3::text[]) ORDER BY recorded_at DESC, id DESC LIMIT 1`,
      [about.kind, about.id, kinds],
    )
  )[0] ?? null;
