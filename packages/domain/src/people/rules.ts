// Rules about people of the firm.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from './roles.ts';

export const SHORTEST_PASSWORD = 12;
const FAILURES_ALLOWED = 5;
/** Minutes during which failures are counted and for which signing in pauses. */
export const PAUSE_MINUTES = 15;

/** After five failures within 15 minutes signing in pauses until 15 minutes after the newest. */
export function maySignIn(facts: { failures: number; newestFailure: Date | null }, now: Date): Outcome<null> {
  if (facts.failures < FAILURES_ALLOWED || facts.newestFailure === null) return accept(null);
  const left = PAUSE_MINUTES - (now.getTime() - facts.newestFailure.getTime()) / 60_000;
  return left > 0 ? refuse('sign-in-paused', { minutes: Math.ceil(left) }) : accept(null);
}

/** The firm always keeps one owner who can sign in. */
export function mayBecome(facts: { otherOwners: number }, after: { roles: readonly Role[]; endedOn: string | null }): Outcome<null> {
  const staysOwner = after.roles.includes('owner') && after.endedOn === null;
  return staysOwner || facts.otherOwners > 0 ? accept(null) : refuse('last-owner', {}, 'roles');
}

export const passwordLongEnough = (password: string): Outcome<null> =>
  password.length >= SHORTEST_PASSWORD ? accept(null) : refuse('password-too-short', {}, 'password');

/** Only an owner makes owners, lead inspectors and office managers; the office may add inspectors. */
export function mayGive(giver: readonly Role[], roles: readonly Role[]): Outcome<null> {
  return giver.includes('owner') || roles.every((role) => role === 'inspector')
    ? accept(null)
    : refuse('role-not-yours-to-give', {}, 'roles');
}
