// Signing in and out. Every attempt is noted; the token itself is never stored.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { maySignIn, PAUSE_MINUTES } from '@backsight/domain/people/rules';
import type { Role } from '@backsight/domain/people/roles';
import { addAuditRow } from '@backsight/store/audit';
import { createSession, endSession, findByEmail, findSession, noteAttempt, recentFailures } from '@backsight/store/sessions';
import type { Reader } from '@backsight/store/database';
import type { RunnerParts } from '../run.ts';
import { newToken, passwordFits, tokenDigest } from './steps/password.ts';

export const SESSION_HOURS = 12;

export type NewSession = { token: string; expiresAt: Date; person: { id: string; name: string } };

/** Checks address and password; on success a session begins. Failures are noted even though nothing else is. */
export async function signIn(parts: RunnerParts, input: { email: string; password: string }): Promise<Outcome<NewSession>> {
  const now = parts.clock();
  const emailHash = tokenDigest(input.email.trim().toLowerCase());
  const failed = await recentFailures(parts.database.read, emailHash, new Date(now.getTime() - PAUSE_MINUTES * 60_000));
  const allowed = maySignIn({ failures: failed.n, newestFailure: failed.newest }, now);
  if (!allowed.ok) return allowed;
  const person = await findByEmail(parts.database.read, input.email.trim());
  const fits = await passwordFits(person?.passwordHash ?? null, input.password);
  const works = person !== null && fits && (person.endedOn === null || new Date(person.endedOn) > now);
  return parts.database.transaction(async (tx) => {
    await noteAttempt(tx, { id: parts.newId(), emailHash, at: now, succeeded: works });
    if (!works) return refuse('sign-in-failed');
    const { token, tokenHash } = newToken();
    const id = parts.newId();
    const expiresAt = new Date(now.getTime() + SESSION_HOURS * 3_600_000);
    await createSession(tx, { id, tokenHash, personId: person.id, createdAt: now, expiresAt });
    await addAuditRow(tx, {
      id: parts.newId(),
      actorKind: 'person',
      actorId: person.id,
      operation: 'people.sign-in',
      thingKind: 'session',
      thingId: id,
      details: {},
      at: now,
    });
    return accept({ token, expiresAt, person: { id: person.id, name: person.name } });
  });
}

/** Ends a session; ending it twice is no error. */
export async function signOut(parts: RunnerParts, session: { sessionId: string; personId: string }): Promise<void> {
  const now = parts.clock();
  await parts.database.transaction(async (tx) => {
    await endSession(tx, session.sessionId, now);
    await addAuditRow(tx, {
      id: parts.newId(),
      actorKind: 'person',
      actorId: session.personId,
      operation: 'people.sign-out',
      thingKind: 'session',
      thingId: session.sessionId,
      details: {},
      at: now,
    });
  });
}

export type Session = { sessionId: string; personId: string; name: string; roles: Role[] };

/** Who a token belongs to, or null. */
export const whoIs = async (reader: Reader, token: string, now: Date): Promise<Session | null> =>
  (await findSession(reader, tokenDigest(token), now)) as Session | null;
