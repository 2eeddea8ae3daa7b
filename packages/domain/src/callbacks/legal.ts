// A legal paper: what is done on the day on which it comes, and the deadline that stands in it, set by hand.
import { shiftDay } from '../shared/calendar.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { isLegal, type Kind } from './words.ts';

/** Done on the same day, each ticked with day and words. */
export const SAME_DAY = {
  insurer: 'Insurer told',
  attorney: 'Attorney told',
  hold: 'Evidence hold set: nothing of this job is thrown away or changed',
  silence: 'No further words to the other side: everybody of the firm was told',
} as const;
export type SameDay = keyof typeof SAME_DAY;

/** Days before its deadline on which the owners are reminded of a paper, and on the day after it was missed. */
export const REMIND_DAYS = [14, 7, 3, 1, 0, -1] as const;

/** The reminder that is due on a day: the nearest one that has come, so that a service that stood still sends one and not three. */
export function reminderDue(deadlineOn: string, today: string): number | null {
  const due = REMIND_DAYS.filter((days) => shiftDay(deadlineOn, -days) <= today);
  return due.length === 0 ? null : Math.min(...due);
}

type Paper = { servedOn: string; deadlineOn: string };

/** A paper's days: served not after today, answered not before it was served. The deadline is never computed. */
export function checkPaper(kind: Kind, { servedOn, deadlineOn }: Paper, today: string): Outcome<null> {
  if (!isLegal(kind)) return refuse('no-legal-paper');
  if (servedOn > today) return refuse('in-the-future', { day: servedOn }, 'servedOn');
  return deadlineOn < servedOn ? refuse('deadline-before-service', { servedOn, deadlineOn }, 'deadlineOn') : accept(null);
}

/** A tick of the list: of a legal paper, once, for a day that has come and is not before the service. */
export function mayTick(
  facts: { kind: Kind; servedOn: string | null; today: string; ticked: readonly string[] },
  tick: { item: SameDay; day: string },
): Outcome<null> {
  if (!isLegal(facts.kind)) return refuse('no-legal-paper');
  if (facts.ticked.includes(tick.item)) return refuse('ticked-already');
  if (tick.day > facts.today) return refuse('in-the-future', { day: tick.day }, 'day');
  return facts.servedOn !== null && tick.day < facts.servedOn
    ? refuse('before-service', { servedOn: facts.servedOn }, 'day')
    : accept(null);
}
