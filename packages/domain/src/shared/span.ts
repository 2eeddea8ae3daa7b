// A span of time in words: whole days by their first and last, anything else by its two instants.
import { DateTime } from 'luxon';

/** 'Tue, Dec 8, 2026 to Wed, Dec 9, 2026, whole days' from midnight to midnight of the zone; else 'Tue, Dec 8, 2026, 9:00 AM to ...'. */
export function spanInWords(startsAt: Date, endsAt: Date, zone: string): string {
  const [from, until] = [startsAt, endsAt].map((at) => DateTime.fromJSDate(at, { zone }).setLocale('en-US')) as [DateTime, DateTime];
  const whole = [from, until].every((at) => at.toMillis() === at.startOf('day').toMillis());
  const say = (at: DateTime): string => at.toFormat(whole ? 'ccc, LLL d, yyyy' : 'ccc, LLL d, yyyy, h:mm a');
  if (!whole) return `${say(from)} to ${say(until)}`;
  const last = until.minus({ days: 1 });
  return from.hasSame(last, 'day') ? `${say(from)}, the whole day` : `${say(from)} to ${say(last)}, whole days`;
}
