// The state that a ZIP code lies in, by its first three digits (from the npm package zipcodes, whose points are those of GeoNames, CC BY 4.0).
// A few codes across a line of states go by the rest of their digits; the office can set such a property right.

const PREFIXES: readonly (readonly [from: number, to: number, state: string])[] = [
  [5, 5, 'US-NY'],
  [6, 7, 'US-PR'],
  [8, 8, 'US-VI'],
  [9, 9, 'US-PR'],
  [10, 27, 'US-MA'],
  [28, 29, 'US-RI'],
  [30, 38, 'US-NH'],
  [39, 49, 'US-ME'],
  [50, 54, 'US-VT'],
  [55, 55, 'US-MA'],
  [56, 59, 'US-VT'],
  [60, 69, 'US-CT'],
  [70, 89, 'US-NJ'],
  [100, 149, 'US-NY'],
  [150, 196, 'US-PA'],
  [197, 199, 'US-DE'],
  [200, 200, 'US-DC'],
  [201, 201, 'US-VA'],
  [202, 205, 'US-DC'],
  [206, 219, 'US-MD'],
  [220, 246, 'US-VA'],
  [247, 268, 'US-WV'],
  [270, 289, 'US-NC'],
  [290, 299, 'US-SC'],
  [300, 319, 'US-GA'],
  [320, 339, 'US-FL'],
  [341, 349, 'US-FL'],
  [350, 369, 'US-AL'],
  [370, 385, 'US-TN'],
  [386, 397, 'US-MS'],
  [398, 399, 'US-GA'],
  [400, 427, 'US-KY'],
  [430, 459, 'US-OH'],
  [460, 479, 'US-IN'],
  [480, 499, 'US-MI'],
  [500, 528, 'US-IA'],
  [530, 549, 'US-WI'],
  [550, 567, 'US-MN'],
  [569, 569, 'US-DC'],
  [570, 577, 'US-SD'],
  [580, 588, 'US-ND'],
  [590, 599, 'US-MT'],
  [600, 629, 'US-IL'],
  [630, 658, 'US-MO'],
  [660, 679, 'US-KS'],
  [680, 693, 'US-NE'],
  [700, 714, 'US-LA'],
  [716, 729, 'US-AR'],
  [730, 731, 'US-OK'],
  [733, 733, 'US-TX'],
  [734, 749, 'US-OK'],
  [750, 799, 'US-TX'],
  [800, 816, 'US-CO'],
  [820, 831, 'US-WY'],
  [832, 838, 'US-ID'],
  [840, 847, 'US-UT'],
  [850, 865, 'US-AZ'],
  [870, 884, 'US-NM'],
  [885, 885, 'US-TX'],
  [889, 898, 'US-NV'],
  [900, 961, 'US-CA'],
  [967, 968, 'US-HI'],
  [969, 969, 'US-GU'],
  [970, 979, 'US-OR'],
  [980, 994, 'US-WA'],
  [995, 999, 'US-AK'],
];

/** ISO 3166-2 code, or null for a ZIP code of no state. */
export function stateOfZip(zip: string): string | null {
  const prefix = Number(zip.slice(0, 3));
  return /^\d{5}/.test(zip) ? (PREFIXES.find(([from, to]) => from <= prefix && prefix <= to)?.[2] ?? null) : null;
}

/** Codes of all states and territories that have ZIP codes, in order. */
export const STATE_CODES: readonly string[] = [...new Set(PREFIXES.map(([, , state]) => state))].sort();

/** 'WI' of 'US-WI', as addresses have it. */
export const shortState = (code: string): string => code.slice(3);
