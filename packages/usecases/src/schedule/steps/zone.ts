// Properties beyond a zone border: everything is planned and shown by the firm's clock, and the property's own time is said beside it.
import tzLookup from '@photostructure/tz-lookup';
import { DateTime } from 'luxon';

/** Two zones that show the same time all through a year need not be told apart; these days see every season. */
const MONTHS = [1, 4, 7, 10];

/** IANA zone of a place when its clocks differ from those of `zone` at some time of the year of `day`; else null. */
export function zoneBeyond(place: { lat: number; lon: number }, zone: string, day: string): string | null {
  const local = tzLookup(place.lat, place.lon);
  if (local === zone) return null;
  const year = Number(day.slice(0, 4));
  const offset = (month: number, of: string): number => DateTime.fromObject({ year, month, day: 15, hour: 12 }, { zone: of }).offset;
  return MONTHS.some((month) => offset(month, zone) !== offset(month, local)) ? local : null;
}
