// The middle of a ZIP code's area, from the npm package zipcodes (BSD); its points are those of GeoNames, CC BY 4.0.
export type ZipPlace = { lat: number; lon: number; name: string };

let codes: Promise<typeof import('zipcodes/lib/codes.js')> | undefined;

/** Null for a ZIP code that is not known, or that the package lists at 0, 0 as it does where it knows no place. The list is read when first asked. */
export async function zipPlace(zip: string): Promise<ZipPlace | null> {
  const list = (await (codes ??= import('zipcodes/lib/codes.js'))).default.codes;
  const found = Object.hasOwn(list, zip) ? list[zip]! : null;
  if (!found || found.country !== 'US' || !(Math.abs(found.latitude) > 0.01 && Math.abs(found.longitude) > 0.01)) return null;
  return { lat: found.latitude, lon: found.longitude, name: `${found.city}, ${found.state}` };
}
