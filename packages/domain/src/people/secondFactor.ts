// Who must have a second factor, and what its codes are like.
import type { Role } from './roles.ts';

/** Codes for whoever lost the second factor; so many are given at once. */
export const RECOVERY_CODES = 10;

/** Owners see everything and change who may: whoever signs in as one has a second factor, save in the demo firm, or where the installation says otherwise. */
export const mustHaveFactor = (facts: { roles: readonly Role[]; demo: boolean; ownersMust: boolean }): boolean =>
  facts.ownersMust && !facts.demo && facts.roles.includes('owner');

/** A code of six digits is one of the phone; anything else may be one of those for whoever lost it, however it is spaced. */
export function codeOf(typed: string): { kind: 'one_time' | 'recovery'; code: string } {
  const code = typed.toLowerCase().replace(/[\s-]/g, '');
  return { kind: /^\d{6}$/.test(code) ? 'one_time' : 'recovery', code };
}
