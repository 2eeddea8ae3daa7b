// Instants and days as the firm reads them: its own time zone, US order.
import { DateTime } from 'luxon';

const thisYear = (zone: string): number => DateTime.now().setZone(zone).year;

/** 'Tue, May 12, 9:00 AM' in the zone; the year is named when it is not this one. */
export function instantText(iso: string, zone: string): string {
  const at = DateTime.fromISO(iso, { zone, locale: 'en-US' });
  return at.isValid ? at.toFormat(at.year === thisYear(zone) ? 'ccc, LLL d, h:mm a' : 'ccc, LLL d, yyyy, h:mm a') : iso;
}

/** '9:00 AM' in the zone. */
export const clockText = (iso: string, zone: string): string => DateTime.fromISO(iso, { zone, locale: 'en-US' }).toFormat('h:mm a');

/** 'Tue, May 12, 2026' of an ISO day. */
export function dayText(day: string): string {
  const at = DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' });
  return at.isValid ? at.toFormat('ccc, LLL d, yyyy') : day;
}

/** Today where the firm is, as ISO day. */
export const todayIn = (zone: string): string => DateTime.now().setZone(zone).toFormat('yyyy-MM-dd');

/** An instant as an input of type datetime-local takes it, in the zone. */
export const localInput = (at: DateTime, zone: string): string => at.setZone(zone).toFormat("yyyy-MM-dd'T'HH:mm");

/** What such an input gives, as an instant; text that is no time stays as it is, and the service names it. */
export const toInstant = (local: string, zone: string): string => DateTime.fromISO(local, { zone }).toUTC().toISO() ?? local;
