// Where a property is: the exact place when it is known, else its town.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { listTowns } from '@backsight/store/jobs/catalog';
import type { Place } from './plan.ts';

/** The place of an address: the exact one when given, else its town. */
export async function placeOf(
  reader: Reader,
  given: { town: string; lat?: number | undefined; lon?: number | undefined },
): Promise<Outcome<Place & { zip: string }>> {
  const town = (await listTowns(reader)).find((one) => one.name.toLowerCase() === given.town.trim().toLowerCase());
  if (given.lat !== undefined && given.lon !== undefined) return accept({ lat: given.lat, lon: given.lon, zip: town?.zip ?? '' });
  return town ? accept({ lat: town.lat, lon: town.lon, zip: town.zip }) : refuse('town-not-known', { town: given.town }, 'property.town');
}
