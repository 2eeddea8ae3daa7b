// By when a callback is acknowledged, sorted and decided, in business time.
import type { BusinessCalendar } from '../shared/calendar.ts';
import { deadline, type DeadlinePolicy } from '../shared/deadline.ts';

export type Clock = 'acknowledge' | 'triage' | 'decision';

/**
 * Customary times: acknowledge within 1 business day, sort within 2, decide in writing within 15 (common practice, tighter than the
 * 5 and 15 working days that one certification body publishes). A firm may set its own.
 */
export const CUSTOMARY_CLOCKS: Record<Clock, DeadlinePolicy> = {
  acknowledge: { amount: 1, unit: 'businessDays' },
  triage: { amount: 2, unit: 'businessDays' },
  decision: { amount: 15, unit: 'businessDays' },
};

export type DueTimes = { acknowledgeDueAt: string; triageDueAt: string; decisionDueAt: string };

/** The three due instants (UTC) of something received at an instant (ISO with offset). */
export function dueTimes(receivedAt: string, calendar: BusinessCalendar, clocks = CUSTOMARY_CLOCKS): DueTimes {
  const due = (clock: Clock): string => deadline(clocks[clock], receivedAt, [], calendar)!;
  return { acknowledgeDueAt: due('acknowledge'), triageDueAt: due('triage'), decisionDueAt: due('decision') };
}
