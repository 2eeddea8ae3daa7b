// Rules about people of the firm.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from './roles.ts';

export const SHORTEST_PASSWORD = 12;
/** For one account from one address; from one address for whatever account; for one account from wherever. */
const FAILURES_ALLOWED = { pair: 5, address: 20, account: 100 };
/** Minutes during which failures are counted and for which signing in pauses. */
export const PAUSE_MINUTES = 15;

/** Failures since the last success, and the newest of them. */
export type Failures = { n: number; newest: Date | null };

/**
 * After five failures within 15 minutes signing in pauses for that account from that address until 15 minutes after the newest; others are
 * not locked out by them: it takes twenty from one address, or a hundred for one account, to pause more.
 */
export function maySignIn(facts: { pair: Failures; address: Failures; account: Failures }, now: Date): Outcome<null> {
  const over = (['pair', 'address', 'account'] as const).filter((of) => facts[of].n >= FAILURES_ALLOWED[of]);
  const newest = Math.max(...over.map((of) => facts[of].newest?.getTime() ?? 0));
  const left = PAUSE_MINUTES - (now.getTime() - newest) / 60_000;
  return over.length > 0 && left > 0 ? refuse('sign-in-paused', { minutes: Math.ceil(left) }) : accept(null);
}

/** One person is signed in at so many places at once at most; the one of longest ago ends when there is one more. */
export const MOST_SESSIONS = 10;
/** Whoever goes on site has the phone in a pocket for hours, behind its own lock. */
const ON_SITE = 4;

/** After so many minutes in which nobody did anything one signs in anew: `desk` at a desk, four times as long for those who go on site. */
export const idleMinutes = (roles: readonly Role[], desk: number): number =>
  roles.includes('inspector') || roles.includes('lead_inspector') ? ON_SITE * desk : desk;

/** The firm always keeps one owner who can sign in. */
export function mayBecome(facts: { otherOwners: number }, after: { roles: readonly Role[]; endedOn: string | null }): Outcome<null> {
  const staysOwner = after.roles.includes('owner') && after.endedOn === null;
  return staysOwner || facts.otherOwners > 0 ? accept(null) : refuse('last-owner', {}, 'roles');
}

/** Only an owner makes owners, lead inspectors and office managers; the office may add inspectors. */
export function mayGive(giver: readonly Role[], roles: readonly Role[]): Outcome<null> {
  return giver.includes('owner') || roles.every((role) => role === 'inspector')
    ? accept(null)
    : refuse('role-not-yours-to-give', {}, 'roles');
}
