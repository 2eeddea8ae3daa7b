// Quiet hours: what is not urgent waits until the morning where the firm is.
import { DateTime } from 'luxon';

/** Minutes of the firm's wall clock; the quiet time runs over midnight. */
export type QuietHours = { quietFromMinute: number; quietUntilMinute: number };

/** Whether the instant lies in the quiet hours of the zone. Both ends are read off the wall clock, so days on which it is set count right. */
export function isQuiet(now: Date, zone: string, { quietFromMinute, quietUntilMinute }: QuietHours): boolean {
  const { hour, minute } = DateTime.fromJSDate(now, { zone });
  const at = hour * 60 + minute;
  return at >= quietFromMinute || at < quietUntilMinute;
}

const SOON_HOURS = 24;

/** What concerns a time this near is not kept until the morning. */
export const isSoon = (startsAt: Date, now: Date): boolean => startsAt.getTime() - now.getTime() < SOON_HOURS * 3_600_000;
