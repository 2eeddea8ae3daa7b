// Who is signed in, and how often signing in failed.
import type { Reader, Tx } from './database.ts';

export type Credentials = { id: string; name: string; passwordHash: string | null; endedOn: string | null };

/** The person who signs in with an address, or null. */
export const findByEmail = async (reader: Reader, email: string): Promise<Credentials | null> =>
  (
    await reader.rows<Credentials>(
      'SELECT id::text AS id, name, password_hash AS "passwordHash", ended_on::text AS "endedOn" FROM person WHERE lower(email) = lower($1)',
      [email],
    )
  )[0] ?? null;

export type SignedIn = { sessionId: string; personId: string; name: string; roles: string[] };

/** The living session of a token, or null. */
export const findSession = async (reader: Reader, tokenHash: string, now: Date): Promise<SignedIn | null> =>
  (
    await reader.rows<SignedIn>(
      `SELECT s.id::text AS "sessionId", p.id::text AS "personId", p.name, coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id), '{}') AS roles
       FROM session s JOIN person p ON p.id = s.person_id
       WHERE s.token_hash = $1 AND s.ended_at IS NULL AND s.expires_at > $2::timestamptz AND (p.ended_on IS NULL OR p.ended_on > $2::timestamptz::date)`,
      [tokenHash, now.toISOString()],
    )
  )[0] ?? null;

export const createSession = (tx: Tx, s: { id: string; tokenHash: string; personId: string; createdAt: Date; expiresAt: Date }) =>
  tx.db.session.create({ data: s });

export const endSession = (tx: Tx, id: string, at: Date) =>
  tx.db.session.updateMany({ where: { id, endedAt: null }, data: { endedAt: at } });

export const noteAttempt = (tx: Tx, a: { id: string; emailHash: string; at: Date; succeeded: boolean }) =>
  tx.db.signInAttempt.create({ data: a });

/** Failed attempts since the last success, within the time given. */
export const recentFailures = async (reader: Reader, emailHash: string, since: Date): Promise<{ n: number; newest: Date | null }> => {
  const [row] = await reader.rows<{ n: number; newest: Date | null }>(
    `SELECT count(*)::int AS n, max(at) AS newest FROM sign_in_attempt WHERE email_hash = $1 AND NOT succeeded AND at > $2::timestamptz
       AND at > coalesce((SELECT max(at) FROM sign_in_attempt WHERE email_hash = $1 AND succeeded), '-infinity')`,
    [emailHash, since.toISOString()],
  );
  return row ?? { n: 0, newest: null };
};

export const findPasswordHash = async (reader: Reader, personId: string): Promise<string | null> =>
  (await reader.rows<{ hash: string | null }>('SELECT password_hash AS hash FROM person WHERE id = $1::uuid', [personId]))[0]?.hash ?? null;

export const storePasswordHash = (tx: Tx, personId: string, passwordHash: string) =>
  tx.db.person.update({ where: { id: personId }, data: { passwordHash } });

/** Ends every session of a person but the one to keep. */
export const endSessionsOf = (tx: Tx, personId: string, at: Date, keep: string | null) =>
  tx.db.session.updateMany({ where: { personId, endedAt: null, ...(keep ? { NOT: { id: keep } } : {}) }, data: { endedAt: at } });
