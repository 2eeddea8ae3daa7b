// Asking for an absence, and deciding about it.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from './roles.ts';

export const ABSENCE_STATES = ['asked', 'approved', 'refused'] as const;
export type AbsenceState = (typeof ABSENCE_STATES)[number];

/** Who decides about absences: their own count at once, and they enter those of others. */
export const DECIDERS: readonly Role[] = ['owner', 'office_manager', 'lead_inspector'];
export const decides = (roles: readonly Role[]): boolean => roles.some((role) => DECIDERS.includes(role));

/** An inspector asks; whoever decides enters what counts at once. */
export const stateAtFirst = (roles: readonly Role[]): AbsenceState => (decides(roles) ? 'approved' : 'asked');

/** `keepVisits`: the visits in it stay booked until somebody places them anew. */
export type Decision = { approve: boolean; reason: string; keepVisits: boolean };

/** What an asked absence becomes. An approval that hits booked visits must say that they are kept; a refusal says why. */
export function decideAbsence(
  absence: { state: AbsenceState; withdrawn: boolean },
  hits: readonly string[],
  { approve, reason, keepVisits }: Decision,
): Outcome<'approved' | 'refused'> {
  if (absence.withdrawn) return refuse('absence-withdrawn');
  if (absence.state !== 'asked') return refuse('absence-decided');
  if (!approve) return reason === '' ? refuse('absence-refusal-reason', {}, 'reason') : accept('refused');
  return hits.length > 0 && !keepVisits
    ? refuse('absence-hits-visits', { count: hits.length, visits: hits }, 'keepVisits')
    : accept('approved');
}
