// Who comes to a visit besides its pair, and how long a held time is kept.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** Why somebody comes along who counts toward no rule. */
export const OBSERVER_REASONS = { trainee: 'in training', ride_along: 'a lead riding along', other: 'an observer' } as const;
export type ObserverReason = keyof typeof OBSERVER_REASONS;

type Visit = { state: string; first: string; second: string | null };

/** Whether somebody may come along: to a visit that lies ahead, not as one of its pair, and once. */
export function mayComeAlong(visit: Visit, observers: readonly string[], person: { id: string; name: string }): Outcome<null> {
  if (visit.state !== 'held' && visit.state !== 'booked') return refuse('visit-is', { state: visit.state.replaceAll('_', ' ') });
  if (person.id === visit.first || person.id === visit.second) return refuse('observer-in-pair', { name: person.name }, 'personId');
  return observers.includes(person.id) ? refuse('observer-there', { name: person.name }, 'personId') : accept(null);
}

/** A hold that still runs is extended once, by the time for which it was placed; answers when it ends then. */
export function extendHold(
  hold: { state: string; holdEndsAt: Date | null; holdExtended: boolean },
  { now, holdMinutes }: { now: Date; holdMinutes: number },
): Outcome<Date> {
  if (hold.state !== 'held' || hold.holdEndsAt === null || hold.holdEndsAt <= now) return refuse('hold-over');
  if (hold.holdExtended) return refuse('hold-extended');
  return accept(new Date(hold.holdEndsAt.getTime() + holdMinutes * 60_000));
}
