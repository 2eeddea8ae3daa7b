// Waiting for the client: the clocks of visit and decision stand still, and get back exactly the office time that passed meanwhile.
import type { BusinessCalendar } from '../shared/calendar.ts';
import { afterBusinessTime, businessTimeBetween } from '../shared/deadline.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { CLOCKS, type Clock } from './clocks.ts';
import type { State } from './words.ts';

/** Acknowledging, sorting, danger, the insurer and legal deadlines never wait for anybody. */
const STANDS_STILL: readonly Clock[] = ['visit', 'decision'];
export const maySlow = (clock: Clock): boolean => STANDS_STILL.includes(clock);

/** Instants are ISO. */
export type Running = { clock: Clock; startedAt: string; dueAt: string };

/** Clocks that stand still when a pause begins: what is overdue already stays so. */
const slowed = (clocks: readonly Running[], at: string): Running[] =>
  clocks.filter(({ clock, dueAt }) => maySlow(clock) && Date.parse(dueAt) > Date.parse(at));

export function mayPause(facts: { state: State; paused: boolean; clocks: readonly Running[] }, now: string): Outcome<Clock[]> {
  if (facts.state === 'closed') return refuse('callback-state', { state: 'closed', needed: 'open' });
  if (facts.paused) return refuse('pause-open-already');
  const found = slowed(facts.clocks, now);
  return found.length > 0
    ? accept(found.map(({ clock }) => clock))
    : refuse('nothing-stands-still', { clocks: STANDS_STILL.map((clock) => CLOCKS[clock].toLowerCase()) });
}

/**
 * The due instants after a pause (UTC), of the clocks that stood still: each moves by the office time between the beginning of the pause, or
 * of the clock when that came later, and its end.
 */
export function dueAfterPause(clocks: readonly Running[], pause: { from: string; to: string }, calendar: BusinessCalendar): Running[] {
  return slowed(clocks, pause.from).map((one) => {
    const from = Date.parse(one.startedAt) > Date.parse(pause.from) ? one.startedAt : pause.from;
    return { ...one, dueAt: afterBusinessTime(one.dueAt, businessTimeBetween(from, pause.to, calendar), calendar) };
  });
}
