// Whether a photo was taken near the property. Only the answer is kept, never the place.

/** Metres within which a photo counts as taken at the property: the firm's own measure, kept beside each answer. */
export const NEAR_METRES = 200;

/** Degrees north and east. */
export type Place = { lat: number; lon: number };
export const NEAR = { yes: 'yes', no: 'no', unknown: 'unknown' } as const;
export type NearProperty = keyof typeof NEAR;

/** Both in metres: how far from the property, null where one of the places is not known; `accuracy` 0 where nobody says. Too vague to tell is unknown. */
export function nearProperty(metres: number | null, accuracy: number): NearProperty {
  if (metres === null) return 'unknown';
  if (metres + accuracy <= NEAR_METRES) return 'yes';
  return metres - accuracy > NEAR_METRES ? 'no' : 'unknown';
}

/** 'taken within 200 m of the property: yes'. */
export const sayNear = (near: NearProperty, metres: number): string => `taken within ${metres} m of the property: ${NEAR[near]}`;
