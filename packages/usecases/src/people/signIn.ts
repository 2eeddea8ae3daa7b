// Signing in and out. Every attempt is noted; the token itself is never stored.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { maySignIn, PAUSE_MINUTES } from '@backsight/domain/people/rules';
import type { Role } from '@backsight/domain/people/roles';
import { codeOf, mustHaveFactor } from '@backsight/domain/people/secondFactor';
import { addAuditRow } from '@backsight/store/audit';
import { findFactor, takeRecoveryCode, takeStep, type FactorRow } from '@backsight/store/people/secondFactor';
import { createSession, endSession, findByEmail, findSession, noteAttempt, recentFailures, type Stage } from '@backsight/store/sessions';
import type { Reader, Tx } from '@backsight/store/database';
import type { RunnerParts } from '../run.ts';
import { openSecret, recoveryDigest, stepOf } from './steps/oneTimeCode.ts';
import { keyedDigest, newToken, passwordFits, tokenDigest } from './steps/password.ts';

export const SESSION_HOURS = 12;
const LONGEST_AGENT = 300;

export type NewSession = { token: string; expiresAt: Date; person: { id: string; name: string } };
export type SignInParts = RunnerParts & {
  /** The key of the installation. */ secretKey: Buffer;
  /** Whether owners must have a second factor. */ ownersMust: boolean;
};
export type SignInInput = {
  email: string;
  password: string;
  code?: string | undefined;
  agent?: string | undefined;
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
  const factor = works ? await findFactor(parts.database.read, person.id) : null;
  const on = factor?.confirmed === true;
  if (on && !input.code?.trim()) return refuse('code-needed', {}, 'code');
  return parts.database.transaction(async (tx) => {
    const taken: Outcome<null> = !works
      ? refuse('sign-in-failed')
      : on
        ? await takeCode(parts, tx, person.id, factor, input.code!)
        : accept(null);
    await noteAttempt(tx, { id: parts.newId(), ...who, at: now, succeeded: taken.ok });
    if (!taken.ok) return taken;
    const stage: Stage = !on && mustHaveFactor({ ...person!, ownersMust: parts.ownersMust }) ? 'factor_needed' : 'whole';
    return accept(await begin(parts, tx, person!, stage, input.agent ?? ''));
  });
}

/** Of the phone, or one of those for whoever lost it; either is good once, also for two who send it at once. */
async function takeCode(parts: SignInParts, tx: Tx, personId: string, factor: FactorRow, typed: string): Promise<Outcome<null>> {
  const { kind, code } = codeOf(typed);
  const now = parts.clock();
  if (kind === 'recovery')
    return (await takeRecoveryCode(tx, personId, recoveryDigest(code), now)) ? accept(null) : refuse('code-wrong', {}, 'code');
  const secret = openSecret(parts.secretKey, personId, factor.secret);
  if (secret === null) return refuse('factor-unreadable', {}, 'code');
  const step = stepOf(secret, code, now, factor.lastStep);
  const taken = step !== null && (await takeStep(tx, personId, step)).count === 1;
  return taken ? accept(null) : refuse('code-wrong', {}, 'code');
}

async function begin(parts: SignInParts, tx: Tx, person: { id: string; name: string }, stage: Stage, agent: string): Promise<NewSession> {
  const now = parts.clock();
  const { token, tokenHash } = newToken();
  const id = parts.newId();
  const expiresAt = new Date(now.getTime() + SESSION_HOURS * 3_600_000);
  await createSession(tx, { id, tokenHash, personId: person.id, createdAt: now, expiresAt, agent: agent.slice(0, LONGEST_AGENT), stage });
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
  return { token, expiresAt, person: { id: person.id, name: person.name } };
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

export type Session = { sessionId: string; personId: string; name: string; roles: Role[]; stage: Stage };

/** Who a token belongs to, or null. */
export const whoIs = async (reader: Reader, token: string, now: Date): Promise<Session | null> =>
  (await findSession(reader, tokenDigest(token), now)) as Session | null;
