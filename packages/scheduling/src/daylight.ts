// Sunrise and sunset on the local wall clock, for work that needs daylight.
import { getTimes, times as sunTimes } from 'suncalc';
import { dayNumber } from './time.ts';
import type { Day } from './time.ts';
import type { Place } from './travel.ts';

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 86_400_000;

// The library works out every pair of times in its list: we keep the first, sunrise and sunset, and save four fifths of the work.
sunTimes.length = 1;

/** Sun times of the local day, asked at its noon so that the library takes the right solar day. */
function sunOf(place: Place, day: Day, utcOffsetMinutes: number) {
  const midnight = dayNumber(day) * MS_PER_DAY - utcOffsetMinutes * MS_PER_MINUTE;
  const times = getTimes(new Date(midnight + MS_PER_DAY / 2), place.lat, place.lon);
  const minute = (at: Date | null): number | null => (at === null ? null : (at.getTime() - midnight) / MS_PER_MINUTE);
  return { rise: minute(times.sunrise), set: minute(times.sunset), alwaysUp: times.alwaysUp === true };
}

/**
 * Sunset (upper limb, standard refraction) in minutes since local midnight, not rounded; above 1440 when it falls after
 * midnight, Infinity when the sun stays up, -Infinity when it never rises. `utcOffsetMinutes` is the offset in force that
 * day, east positive (-300 for Central Daylight Time). Method: J. Meeus, Astronomical Algorithms, ch. 15 and 25 (suncalc).
 */
export function sunsetMinute(place: Place, day: Day, utcOffsetMinutes: number): number {
  const sun = sunOf(place, day, utcOffsetMinutes);
  return sun.set ?? (sun.alwaysUp ? Infinity : -Infinity);
}

/** Sunrise, as `sunsetMinute`; -Infinity when the sun stays up, Infinity when it never rises. */
export function sunriseMinute(place: Place, day: Day, utcOffsetMinutes: number): number {
  const sun = sunOf(place, day, utcOffsetMinutes);
  return sun.rise ?? (sun.alwaysUp ? -Infinity : Infinity);
}
