// Where a property is: the exact place when it is known, else its town or the middle of its ZIP code.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { stateOfZip } from '@backsight/domain/shared/stateOfZip';
import type { Reader } from '@backsight/store/database';
import { listTowns, type TownRow } from '@backsight/store/jobs/catalog';
import { isNowhere } from '../../schedule/steps/places.ts';
import type { Place } from './plan.ts';
import { zipPlace } from './zipPlace.ts';

export type PlaceBy = 'town' | 'zip' | 'exact';
/** `state` by the ZIP code, like US-WI; empty where it tells none. */
export type FoundPlace = Place & { zip: string; state: string; placeBy: PlaceBy; name: string };
type Given = { town: string; zip?: string | undefined; lat?: number | undefined; lon?: number | undefined };

const stateOf = (zip: string): string => stateOfZip(zip) ?? '';

const ofTown = ({ name, lat, lon, zip }: TownRow, given: string | undefined): FoundPlace => ({
  lat,
  lon,
  zip: given ?? zip,
  state: stateOf(given ?? zip),
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
    const code = zip ?? named?.zip ?? '';
    return accept({ lat, lon, zip: code, state: stateOf(code), placeBy: 'exact', name: town });
  }
  const coded = zip === undefined || named?.zip === zip ? named : towns.find((one) => one.zip === zip);
  if (coded) return accept(ofTown(coded, zip));
  if (zip === undefined) return refuse('town-not-known', { town }, 'property.town');
  const middle = await zipPlace(zip);
  if (middle) return accept({ ...middle, zip, state: stateOf(zip), placeBy: 'zip' });
  return named ? accept(ofTown(named, zip)) : refuse('zip-not-known', { zip }, 'property.zip');
}
