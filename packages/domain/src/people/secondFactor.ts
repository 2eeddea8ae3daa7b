// Who must have a second factor, and what its codes are like.
import type { Role } from './roles.ts';

/** Codes for whoever lost the second factor; so many are given at once. */
export const RECOVERY_CODES = 10;

/** Whom an installation asks for a second factor. */
export type FactorFor = 'everyone' | 'owners' | 'nobody';

/** Whoever signs in has a second factor, save in the demo firm, or where the installation asks only its owners, who see everything, or nobody. */
export const mustHaveFactor = (facts: { roles: readonly Role[]; demo: boolean; who: FactorFor }): boolean =>
  !facts.demo && (facts.who === 'everyone' || (facts.who === 'owners' && facts.roles.includes('owner')));

/** A code of six digits is one of the phone; anything else may be one of those for whoever lost it, however it is spaced. */
export function codeOf(typed: string): { kind: 'one_time' | 'recovery'; code: string } {
  const code = typed.toLowerCase().replace(/[\s-]/g, '');
  return { kind: /^\d{6}$/.test(code) ? 'one_time' : 'recovery', code };
}
