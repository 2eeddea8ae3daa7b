// Small words of the procedure screens.
import type { Role } from '@backsight/contract/people';
import type { RevisionLine } from '@backsight/contract/procedures';

/** Who drafts, approves and withdraws. */
export const mayRevise = (roles: readonly Role[]): boolean => roles.includes('owner') || roles.includes('lead_inspector');
export const mustAcknowledge = (roles: readonly Role[]): boolean => roles.includes('inspector');

/** 'foundation_structure' -> 'Foundation structure'. */
export const systemName = (system: string): string => system.charAt(0).toUpperCase() + system.slice(1).replaceAll('_', ' ');

/** Where a revision stands, in words. */
export function standing(row: RevisionLine, inForce: boolean, now = new Date()): string {
  if (row.state !== 'approved') return row.state;
  if (inForce) return 'in force';
  return row.inForceFrom !== null && new Date(row.inForceFrom) > now ? 'approved, to come' : 'superseded';
}
