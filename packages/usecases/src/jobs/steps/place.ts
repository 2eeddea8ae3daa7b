// Where a property is: the exact place when it is known, else its town or the middle of its ZIP code.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { listTowns, type TownRow } from '@backsight/store/jobs/catalog';
import { isNowhere } from '../../schedule/steps/places.ts';
import type { Place } from './plan.ts';
import { zipPlace } from './zipPlace.ts';

export type PlaceBy = 'town' | 'zip' | 'exact';
export type FoundPlace = Place & { zip: string; placeBy: PlaceBy; name: string };
type Given = { town: string; zip?: string | undefined; lat?: number | undefined; lon?: number | undefined };

const ofTown = ({ name, lat, lon, zip }: TownRow, given: string | undefined): FoundPlace => ({
  lat,
  lon,
  zip: given ?? zip,
  placeBy: 'town',
  name,
});

/**
 * The place of an address: the exact one when given, else that of the firm's town. A ZIP code that is none of the firm's
 * towns says more than the name: then it is the middle of the ZIP code, good to some kilometers.
 */
export async function placeOf(reader: Reader, { town, zip, lat, lon }: Given): Promise<Outcome<FoundPlace>> {
  const towns = await listTowns(reader);
  const named = towns.find(({ name }) => name.toLowerCase() === town.trim().toLowerCase());
  if (lat !== undefined && lon !== undefined) {
    if (isNowhere({ lat, lon })) return refuse('place-zero', {}, 'property.lat');
    return accept({ lat, lon, zip: zip ?? named?.zip ?? '', placeBy: 'exact', name: town });
  }
  const coded = zip === undefined || named?.zip === zip ? named : towns.find((one) => one.zip === zip);
  if (coded) return accept(ofTown(coded, zip));
  if (zip === undefined) return refuse('town-not-known', { town }, 'property.town');
  const middle = await zipPlace(zip);
  if (middle) return accept({ ...middle, zip, placeBy: 'zip' });
  return named ? accept(ofTown(named, zip)) : refuse('zip-not-known', { zip }, 'property.zip');
}
