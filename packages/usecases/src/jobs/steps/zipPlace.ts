// The middle of a ZIP code's area, from the npm package zipcodes (BSD); its points are those of GeoNames, CC BY 4.0.
export type ZipPlace = { lat: number; lon: number; name: string };

const DEGREE_MILES = 69.2;
/** As far as a pair drives within an ordinary day: common practice. */
const AROUND_MILES = 30;
const TOWNS_AT_MOST = 60;

let codes: Promise<typeof import('zipcodes/lib/codes.js')> | undefined;

/** Null for a ZIP code that is not known, or that the package lists at 0, 0 as it does where it knows no place. The list is read when first asked. */
export async function zipPlace(zip: string): Promise<ZipPlace | null> {
  const list = (await (codes ??= import('zipcodes/lib/codes.js'))).default.codes;
  const found = Object.hasOwn(list, zip) ? list[zip]! : null;
  if (!found || found.country !== 'US' || !(Math.abs(found.latitude) > 0.01 && Math.abs(found.longitude) > 0.01)) return null;
  return { lat: found.latitude, lon: found.longitude, name: `${found.city}, ${found.state}` };
}

/** Towns whose ZIP code has its middle within 30 miles, the nearest 60, each once by name, for a firm that begins there. */
export async function townsAround({
  lat,
  lon,
}: {
  lat: number;
  lon: number;
}): Promise<{ name: string; zip: string; lat: number; lon: number }[]> {
  const list = (await (codes ??= import('zipcodes/lib/codes.js'))).default.codes;
  const east = Math.cos((lat * Math.PI) / 180);
  const near = Object.values(list)
    .filter(({ country }) => country === 'US')
    .map((one) => ({ ...one, miles: DEGREE_MILES * Math.hypot(one.latitude - lat, (one.longitude - lon) * east) }))
    .filter(({ miles }) => miles <= AROUND_MILES)
    .toSorted((a, b) => a.miles - b.miles || a.zip.localeCompare(b.zip));
  const towns = new Map<string, (typeof near)[number]>();
  for (const one of near) if (!towns.has(one.city)) towns.set(one.city, one);
  return [...towns.values()]
    .slice(0, TOWNS_AT_MOST)
    .map(({ city, zip, latitude, longitude }) => ({ name: city, zip, lat: latitude, lon: longitude }));
}
