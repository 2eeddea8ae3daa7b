// Whether a photo was taken near the property. Only the answer is kept, never the place.

/** Metres within which a photo counts as taken at the property: the firm's own measure, kept beside each answer. */
export const NEAR_METRES = 200;

/** Degrees north and east. */
export type Place = { lat: number; lon: number };
export const NEAR = { yes: 'yes', no: 'no', unknown: 'unknown' } as const;
export type NearProperty = keyof typeof NEAR;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Mean radius of the earth in metres: (2a + b) / 3 of WGS 84 (NGA.STND.0036). */
const EARTH = 6_371_008.8;

/** Great-circle distance in metres by the haversine formula (R. W. Sinnott, Sky and Telescope 68 (1984) 158); good to half a percent. */
export function metresBetween(a: Place, b: Place): number {
  const half = (x: number, y: number): number => Math.sin(radians(y - x) / 2) ** 2;
  const h = half(a.lat, b.lat) + Math.cos(radians(a.lat)) * Math.cos(radians(b.lat)) * half(a.lon, b.lon);
  return 2 * EARTH * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** `accuracy` in metres, 0 where nobody says; a position that is too vague to tell counts as unknown. */
export function nearProperty(property: Place | null, taken: (Place & { accuracy: number }) | null): NearProperty {
  if (property === null || taken === null) return 'unknown';
  const metres = metresBetween(property, taken);
  if (metres + taken.accuracy <= NEAR_METRES) return 'yes';
  return metres - taken.accuracy > NEAR_METRES ? 'no' : 'unknown';
}

/** 'taken within 200 m of the property: yes'. */
export const sayNear = (near: NearProperty, metres: number): string => `taken within ${metres} m of the property: ${NEAR[near]}`;
