// Who is signed in, and how often signing in failed.
import type { Role } from '@backsight/domain/people/roles';
import { execute, type Reader, type Tx } from './database.ts';

export type Credentials = {
  id: string;
  name: string;
  email: string;
  passwordHash: string | null;
  endedOn: string | null;
  roles: Role[];
  demo: boolean;
};

/** The person who signs in with an address, or null. */
export const findByEmail = async (reader: Reader, email: string): Promise<Credentials | null> =>
  (
    await reader.rows<Credentials>(
      `SELECT p.id::text AS id, p.name, p.email, p.password_hash AS "passwordHash", p.ended_on::text AS "endedOn", coalesce((SELECT demo FROM firm), false) AS demo,
         coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id), '{}') AS roles FROM person p WHERE lower(p.email) = lower($1)`,
      [email],
    )
  )[0] ?? null;

/** What a session may do: all that the roles may, or only set up the second factor. */
export type Stage = 'whole' | 'factor_needed';
export type SignedIn = {
  sessionId: string;
  personId: string;
  name: string;
  roles: string[];
  stage: Stage;
  lastSeenAt: Date;
  expiresAt: Date;
};

/** The living session of a token, or null. */
export const findSession = async (reader: Reader, tokenHash: string, now: Date): Promise<SignedIn | null> =>
  (
    await reader.rows<SignedIn>(
      `SELECT s.id::text AS "sessionId", p.id::text AS "personId", p.name, s.stage, s.last_seen_at AS "lastSeenAt", s.expires_at AS "expiresAt", coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id), '{}') AS roles
       FROM session s JOIN person p ON p.id = s.person_id
       WHERE s.token_hash = $1 AND s.ended_at IS NULL AND s.expires_at > $2::timestamptz AND (p.ended_on IS NULL OR p.ended_on > $2::timestamptz::date)`,
      [tokenHash, now.toISOString()],
    )
  )[0] ?? null;

export type NewSession = {
  id: string;
  tokenHash: string;
  personId: string;
  createdAt: Date;
  lastSeenAt: Date;
  expiresAt: Date;
  agent: string;
  stage: Stage;
};
export const createSession = (tx: Tx, s: NewSession) => tx.db.session.create({ data: s });

/** Notes that its person did something. */
export const touchSession = (tx: Tx, id: string, at: Date) => tx.db.session.updateMany({ where: { id }, data: { lastSeenAt: at } });

/** From now on another token opens it. */
export const renewSession = (tx: Tx, id: string, tokenHash: string) => tx.db.session.updateMany({ where: { id }, data: { tokenHash } });

/** Ends the session of a token, whosever it is. */
export const endSessionOfToken = (tx: Tx, tokenHash: string, at: Date) =>
  tx.db.session.updateMany({ where: { tokenHash, endedAt: null }, data: { endedAt: at } });

/** Leaves a person the newest `most` of their living sessions. */
export const endOldest = (tx: Tx, personId: string, most: number, at: Date) =>
  execute(
    tx,
    `UPDATE session SET ended_at = $3::timestamptz WHERE id IN (
       SELECT id FROM session WHERE person_id = $1::uuid AND ended_at IS NULL AND expires_at > $3::timestamptz ORDER BY created_at DESC, id DESC OFFSET $2::int)`,
    personId,
    most,
    at.toISOString(),
  );

export const endSession = (tx: Tx, id: string, at: Date) =>
  tx.db.session.updateMany({ where: { id, endedAt: null }, data: { endedAt: at } });

export const noteAttempt = (tx: Tx, a: { id: string; emailHash: string; fromHash: string; at: Date; succeeded: boolean }) =>
  tx.db.signInAttempt.create({ data: a });

type Counted = { n: number; newest: Date | null };

/** Failed attempts within the time given, those of an account since its last success: of an account from an address, from an address, of an account. */
export async function recentFailures(
  reader: Reader,
  { emailHash, fromHash }: { emailHash: string; fromHash: string },
  since: Date,
): Promise<{ pair: Counted; address: Counted; account: Counted }> {
  const rows = await reader.rows<Counted & { kind: 'pair' | 'address' | 'account' }>(
    `WITH a AS (SELECT email_hash = $1 AS account, from_hash = $2 AS address, at, succeeded FROM sign_in_attempt WHERE (email_hash = $1 OR from_hash = $2) AND at > $3::timestamptz)
     SELECT kind, count(*) FILTER (WHERE NOT succeeded AND at > coalesce(CASE kind WHEN 'address' THEN NULL ELSE good END, '-infinity'))::int AS n, max(at) FILTER (WHERE NOT succeeded) AS newest
     FROM (SELECT kind, at, succeeded, max(at) FILTER (WHERE succeeded) OVER (PARTITION BY kind) AS good
           FROM a CROSS JOIN (VALUES ('pair'), ('address'), ('account')) k(kind)
           WHERE CASE kind WHEN 'pair' THEN account AND address WHEN 'address' THEN address ELSE account END) every GROUP BY kind`,
    [emailHash, fromHash, since.toISOString()],
  );
  const of = (kind: string): Counted => rows.find((row) => row.kind === kind) ?? { n: 0, newest: null };
  return { pair: of('pair'), address: of('address'), account: of('account') };
}

export const findPasswordHash = async (reader: Reader, personId: string): Promise<string | null> =>
  (await reader.rows<{ hash: string | null }>('SELECT password_hash AS hash FROM person WHERE id = $1::uuid', [personId]))[0]?.hash ?? null;

export const storePasswordHash = (tx: Tx, personId: string, passwordHash: string) =>
  tx.db.person.update({ where: { id: personId }, data: { passwordHash } });

/** Ends every session of a person but the one to keep. */
export const endSessionsOf = (tx: Tx, personId: string, at: Date, keep: string | null) =>
  tx.db.session.updateMany({ where: { personId, endedAt: null, ...(keep ? { NOT: { id: keep } } : {}) }, data: { endedAt: at } });

/** The factor is there: the session may do what the roles may. */
export const makeWhole = (tx: Tx, id: string) => tx.db.session.updateMany({ where: { id }, data: { stage: 'whole' } });

export type SessionRow = { id: string; agent: string; beganAt: Date; lastSeenAt: Date };

/** Living sessions of a person, the newest first. */
export const sessionsOf = (reader: Reader, personId: string, now: Date): Promise<SessionRow[]> =>
  reader.rows<SessionRow>(
    `SELECT id::text AS id, agent, created_at AS "beganAt", last_seen_at AS "lastSeenAt" FROM session WHERE person_id = $1::uuid AND ended_at IS NULL AND expires_at > $2::timestamptz ORDER BY created_at DESC, id`,
    [personId, now.toISOString()],
  );

/** Ends one of a person's own sessions; answers whether it was one. */
export const endOwnSession = async (tx: Tx, personId: string, id: string, at: Date): Promise<boolean> =>
  (await tx.db.session.updateMany({ where: { id, personId, endedAt: null }, data: { endedAt: at } })).count === 1;
