// Help with moisture on site: what a meter's number means in wood, and when a camera says anything about insulation.

export type MoistureBand = { band: 'normal' | 'watch' | 'wet' | 'decay'; words: string };

/** In wood only; on drywall, plaster or masonry a number only compares one place with another. */
export const WOOD_BANDS_SOURCE =
  'Bands: common practice, in line with USDA Forest Products Laboratory (decay above fiber saturation, about 30 percent; below 20 percent it does not start, from memory). Pin meters are dependable from about 7 to 30 percent (from memory).';

/** The band of a reading in percent of dry weight, for wood. */
export function woodBand(percent: number): MoistureBand {
  if (percent < 16) return { band: 'normal', words: 'Under 16: normal for wood in a house (6 to 12 where it is heated).' };
  if (percent < 20) return { band: 'watch', words: '16 to 20: watch; look for where it comes from.' };
  if (percent <= 28) return { band: 'wet', words: '20 to 28: wet.' };
  return { band: 'decay', words: 'Over 28: wet enough for decay to go on.' };
}

/** From which on a meter reads more than its air explains: reading minus moisture at rest, in points of percent. The firm's own rule of thumb. */
export const ABOVE_REST = 4;

/** Inside and outside apart by 18 F (10 C), held for 3 hours or more: ASHRAE 101-1981 as quoted; ASTM C1060 asks about 4 hours (from memory). */
export const SCAN_DIFFERENCE_F = 18;
export const SCAN_HOURS = 3;

/** What misses before an insulation scan says anything; empty when nothing does. */
export function scanLacks({ insideF, outsideF, hours }: { insideF: number; outsideF: number; hours: number }): string[] {
  const apart = Math.abs(insideF - outsideF);
  return [
    ...(apart < SCAN_DIFFERENCE_F
      ? [`Inside and outside are ${Math.round(apart * 10) / 10} F apart; an insulation scan wants ${SCAN_DIFFERENCE_F} F or more.`]
      : []),
    ...(hours < SCAN_HOURS ? [`Held for ${hours} ${hours === 1 ? 'hour' : 'hours'}; an insulation scan wants ${SCAN_HOURS} to 4.`] : []),
  ];
}

export const NOTHING_RULED_OUT =
  'For moisture no temperature difference rules anything in or out: the meter decides, or opening it up by somebody who may.';
