// Signing in and out. Every attempt is noted; the token itself is never stored.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { idleMinutes, maySignIn, MOST_SESSIONS, PAUSE_MINUTES } from '@backsight/domain/people/rules';
import type { Role } from '@backsight/domain/people/roles';
import { mustHaveFactor, type FactorFor } from '@backsight/domain/people/secondFactor';
import { addAuditRow } from '@backsight/store/audit';
import { findFactor } from '@backsight/store/people/secondFactor';
import {
  createSession,
  endOldest,
  endSession,
  endSessionOfToken,
  findByEmail,
  findSession,
  noteAttempt,
  recentFailures,
  storePasswordHash,
  touchSession,
  type Credentials,
  type Stage,
} from '@backsight/store/sessions';
import type { Tx } from '@backsight/store/database';
import type { RunnerParts } from '../run.ts';
import { hashPassword, isOfToday, keyedDigest, newToken, passwordFits, tokenDigest } from './steps/password.ts';
import { takeCode, tellOfSignIn } from './steps/security.ts';

export const SESSION_HOURS = 12;
const LONGEST_AGENT = 300;

/** `factor`: with what besides the password. */
export type NewSession = {
  token: string;
  expiresAt: Date;
  person: { id: string; name: string };
  factor: 'none' | 'one_time' | 'recovery';
};
export type SignInParts = RunnerParts & {
  /** The key of the installation. */ secretKey: Buffer;
  /** Who must have a second factor. */ secondFactor: FactorFor;
};
export type SignInInput = {
  email: string;
  password: string;
  code?: string | undefined;
  agent?: string | undefined;
  /** Token of the session that this one takes the place of. */
  before?: string | undefined;
  /** Address that the attempt comes from. */ from: string;
};

/**
 * Checks address and password, and the code where the person has a second factor; on success a session begins. Failures are noted even
 * though nothing else is. Refusals: sign-in-failed, sign-in-paused, code-needed (the password is right), code-wrong, factor-unreadable.
 */
export async function signIn(parts: SignInParts, input: SignInInput): Promise<Outcome<NewSession>> {
  const now = parts.clock();
  const who = { emailHash: tokenDigest(input.email.trim().toLowerCase()), fromHash: keyedDigest(parts.secretKey, input.from) };
  const failed = await recentFailures(parts.database.read, who, new Date(now.getTime() - PAUSE_MINUTES * 60_000));
  const allowed = maySignIn(failed, now);
  if (!allowed.ok) return allowed;
  const person = await findByEmail(parts.database.read, input.email.trim());
  const fits = await passwordFits(person?.passwordHash ?? null, input.password);
  const works = person !== null && fits && (person.endedOn === null || new Date(person.endedOn) > now);
  const on = works && (await findFactor(parts.database.read, person.id))?.confirmed === true;
  if (on && !input.code?.trim()) return refuse('code-needed', {}, 'code');
  return parts.database.transaction(async (tx) => {
    const taken: Outcome<'none' | 'one_time' | 'recovery'> = !works
      ? refuse('sign-in-failed')
      : on
        ? await takeCode(tx, { personId: person.id, typed: input.code!, now, secretKey: parts.secretKey })
        : accept('none');
    await noteAttempt(tx, { id: parts.newId(), ...who, at: now, succeeded: taken.ok });
    if (!taken.ok) return taken;
    const stage: Stage = !on && mustHaveFactor({ ...person!, who: parts.secondFactor }) ? 'factor_needed' : 'whole';
    return accept(await begin(parts, tx, person!, { stage, factor: taken.value, input }));
  });
}

type Begun = { stage: Stage; factor: NewSession['factor']; input: SignInInput };

async function begin(parts: SignInParts, tx: Tx, person: Credentials, { stage, factor, input }: Begun): Promise<NewSession> {
  const now = parts.clock();
  const { token, tokenHash } = newToken();
  const id = parts.newId();
  const expiresAt = new Date(now.getTime() + SESSION_HOURS * 3_600_000);
  if (input.before) await endSessionOfToken(tx, tokenDigest(input.before), now);
  const agent = (input.agent ?? '').slice(0, LONGEST_AGENT);
  await createSession(tx, { id, tokenHash, personId: person.id, createdAt: now, lastSeenAt: now, expiresAt, agent, stage });
  await endOldest(tx, person.id, MOST_SESSIONS, now);
  if (!isOfToday(person.passwordHash!)) await storePasswordHash(tx, person.id, await hashPassword(input.password));
  if (factor === 'recovery')
    await tellOfSignIn(
      { tx, now, newId: parts.newId },
      person,
      'Somebody signed in with one of your recovery codes instead of a code of the phone.',
    );
  await addAuditRow(tx, {
    id: parts.newId(),
    actorKind: 'person',
    actorId: person.id,
    operation: 'people.sign-in',
    thingKind: 'session',
    thingId: id,
    details: { factor },
    at: now,
  });
  return { token, expiresAt, person: { id: person.id, name: person.name }, factor };
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

export type Session = { sessionId: string; personId: string; name: string; roles: Role[]; stage: Stage; expiresAt: Date };

const A_MINUTE = 60_000;

/**
 * Who a token belongs to, or null: also when nobody has done anything with it for so long that somebody else may sit there now.
 * `idle` is that time for people of the desk, in minutes; `atRest`: nobody is at the window that asks, so asking does not count.
 */
export async function whoIs(
  { database, clock }: Pick<RunnerParts, 'database' | 'clock'>,
  token: string,
  { idle, atRest }: { idle: number; atRest: boolean },
): Promise<Session | null> {
  const now = clock();
  const found = await findSession(database.read, tokenDigest(token), now);
  if (!found) return null;
  const { lastSeenAt, ...session } = found as Session & { lastSeenAt: Date };
  const rested = now.getTime() - lastSeenAt.getTime();
  if (rested > idleMinutes(session.roles, idle) * A_MINUTE) return null;
  if (rested >= A_MINUTE && !atRest) await database.transaction((tx) => touchSession(tx, session.sessionId, now));
  return session;
}
