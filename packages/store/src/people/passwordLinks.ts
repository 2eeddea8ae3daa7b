// Links by which a person chooses a password.
import type { Reader, Tx } from '../database.ts';

export const addPasswordLink = (tx: Tx, link: { tokenHash: string; personId: string; expiresAt: Date; recordedAt: Date }) =>
  tx.db.passwordLink.create({ data: link });

/** How many were made for a person since an instant. */
export const passwordLinksSince = async (reader: Reader, personId: string, since: Date): Promise<number> =>
  (
    await reader.rows<{ n: number }>(
      'SELECT count(*)::int AS n FROM password_link WHERE person_id = $1::uuid AND recorded_at > $2::timestamptz',
      [personId, since.toISOString()],
    )
  )[0]!.n;

/** Uses a link, and with it every other of the same person; answers whose it was, or null when it opens nothing. */
export async function usePasswordLink(tx: Tx, tokenHash: string, now: Date): Promise<string | null> {
  const [row] = await tx.rows<{ personId: string }>(
    `SELECT l.person_id::text AS "personId" FROM password_link l JOIN person p ON p.id = l.person_id
     WHERE l.token_hash = $1 AND l.used_at IS NULL AND l.expires_at > $2::timestamptz AND (p.ended_on IS NULL OR p.ended_on > $2::timestamptz::date) FOR UPDATE OF l`,
    [tokenHash, now.toISOString()],
  );
  if (!row) return null;
  await tx.db.passwordLink.updateMany({ where: { personId: row.personId, usedAt: null }, data: { usedAt: now } });
  return row.personId;
}
