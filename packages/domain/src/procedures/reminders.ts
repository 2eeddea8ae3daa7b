// When an inspector is reminded to acknowledge a revision: on the working day before the last, and once it is too late.
import { nextBusinessDay, openingHours, type BusinessCalendar } from '../shared/calendar.ts';
import { DateTime } from 'luxon';

export type ReminderStage = 'before' | 'over';

/** The stage that is due at `now`; null when it is too early. Instants are ISO text. */
export function reminderDue(acknowledgeBy: string, now: string, calendar: BusinessCalendar): ReminderStage | null {
  const [last, at] = [acknowledgeBy, now].map((iso) => DateTime.fromISO(iso, { zone: calendar.zone })) as [DateTime, DateTime];
  if (at > last) return 'over';
  const day = nextBusinessDay(last.toISODate()!, calendar, -1);
  const { start } = openingHours(day, calendar)!;
  return at >= DateTime.fromISO(day, { zone: calendar.zone }).set({ hour: Math.floor(start / 60), minute: start % 60 }) ? 'before' : null;
}
