// How far a drive is, by the same bands of detour as its time.
import { BANDS, greatCircleKm, SAME_PLACE_KM } from './travel.ts';
import type { Place } from './travel.ts';

/** km on the road for a straight-line distance in km, summed band by band so that it never falls; 0 below 50 m. */
export function roadKm(km: number): number {
  if (km < SAME_PLACE_KM) return 0;
  let road = 0;
  let from = 0;
  for (const band of BANDS) {
    if (km <= from) break;
    road += (Math.min(km, band.upToKm) - from) * band.detour;
    from = band.upToKm;
  }
  return road;
}

/** km of the international mile (NIST Special Publication 811, 2008, appendix B). */
const KM_PER_MILE = 1.609344;

/** Estimated tenths of a mile from the base through the places in their order and back to the base; 0 without a place. */
export function routeTenths(base: Place, places: readonly Place[]): number {
  if (places.length === 0) return 0;
  const stops = [base, ...places, base];
  const km = stops.slice(1).reduce((sum, stop, at) => sum + roadKm(greatCircleKm(stops[at]!, stop)), 0);
  return Math.round((km / KM_PER_MILE) * 10);
}
