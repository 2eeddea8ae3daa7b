// Driving time between two places: the offline estimate, and the shape that any better source fits into.
import type { Minute } from './time.ts';

/** Degrees, WGS 84. */
export type Place = { lat: number; lon: number };

/** A place that exists: within the ranges, and not 0, 0, which is how a missing one is often written. */
export const onTheMap = ({ lat, lon }: Place): boolean => Math.abs(lat) <= 90 && Math.abs(lon) <= 180 && !(lat === 0 && lon === 0);

/** Worked out from the distance, answered by a service that knows the roads, or said by a person of the firm. */
export type TravelSource = 'estimate' | 'engine' | 'manual';

/** Driving times and where each comes from. `minutes` is a whole number, 0 for the same place. */
export type Travel = { minutes: (from: Place, to: Place) => Minute; sourceOf: (from: Place, to: Place) => TravelSource };

/** Mean radius R1 of the Earth in km: IUGG, Geodetic Reference System 1980 (Moritz, Journal of Geodesy 74, 2000). */
export const EARTH_RADIUS_KM = 6371.0088;

const RADIANS = Math.PI / 180;

/**
 * Great-circle distance in km on a sphere (haversine formula; R. W. Sinnott, "Virtues of the Haversine", Sky and
 * Telescope 68, 1984). Within 0.56 % of the geodesic on the ellipsoid.
 */
export function greatCircleKm(a: Place, b: Place, radiusKm = EARTH_RADIUS_KM): number {
  const sinLat = Math.sin(((b.lat - a.lat) * RADIANS) / 2);
  const sinLon = Math.sin(((b.lon - a.lon) * RADIANS) / 2);
  const h = sinLat * sinLat + Math.cos(a.lat * RADIANS) * Math.cos(b.lat * RADIANS) * sinLon * sinLon;
  return 2 * radiusKm * Math.asin(Math.sqrt(Math.min(1, h)));
}

/**
 * Bands of straight-line distance: road detour factor and door-to-door speed. The factors lie inside the published
 * range (short trips more circuitous than long: Giacomin, Levinson, Environment and Planning B 42, 2015, 1040-1053);
 * the speeds are our assumption, to be calibrated from recorded drives.
 */
export const BANDS = [
  { upToKm: 2, detour: 1.45, kmh: 22 },
  { upToKm: 5, detour: 1.42, kmh: 30 },
  { upToKm: 10, detour: 1.38, kmh: 38 },
  { upToKm: 25, detour: 1.33, kmh: 52 },
  { upToKm: 60, detour: 1.28, kmh: 70 },
  { upToKm: Infinity, detour: 1.25, kmh: 85 },
] as const;

/** Straight-line distances below this are one place: no drive. */
export const SAME_PLACE_KM = 0.05;
/** Minutes to park and to walk to the door, part of every drive. */
export const PARKING_MINUTES = 3;

/** Speeds by band in km/h, as assumed before any drive was recorded. */
export const STANDARD_SPEEDS: readonly number[] = BANDS.map(({ kmh }) => kmh);

/** Minutes on the road for a straight-line distance, not rounded and without parking: summed band by band, so that it never falls. */
export function roadMinutes(km: number, speeds: readonly number[] = STANDARD_SPEEDS): number {
  let minutes = 0;
  let from = 0;
  for (let at = 0; at < BANDS.length && km > from; at += 1) {
    const band = BANDS[at]!;
    minutes += ((Math.min(km, band.upToKm) - from) * band.detour * 60) / speeds[at]!;
    from = band.upToKm;
  }
  return minutes;
}

/** Whole minutes from door to door for a straight-line distance; 0 below 50 m. */
export const driveMinutes = (km: number, speeds?: readonly number[]): Minute =>
  km < SAME_PLACE_KM ? 0 : Math.ceil(PARKING_MINUTES + roadMinutes(km, speeds));

/** The estimate that needs no network and no history. */
export const estimatedTravel: Travel = { minutes: (from, to) => driveMinutes(greatCircleKm(from, to)), sourceOf: () => 'estimate' };

/** Driving times between one place and others, known by their positions in `others`; each is asked of `travel` once. */
export function travelAround(
  travel: Travel,
  place: Place,
  others: readonly Place[],
): { to: (at: number) => Minute; from: (at: number) => Minute } {
  const memo = (ask: (other: Place) => Minute) => {
    const known = new Int32Array(others.length).fill(-1);
    return (at: number): Minute => (known[at]! >= 0 ? known[at]! : (known[at] = ask(others[at]!)));
  };
  return { to: memo((other) => travel.minutes(other, place)), from: memo((other) => travel.minutes(place, other)) };
}
