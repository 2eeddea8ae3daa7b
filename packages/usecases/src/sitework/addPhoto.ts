// Takes in a photo from the phone on which its entry was written: the original under seal, and the copy that is shown.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { nearProperty, type NearProperty } from '@backsight/domain/sitework/nearby';
import { greatCircleKm } from '@backsight/scheduling/travel';
import type { Reader } from '@backsight/store/database';
import { storeFile } from '@backsight/store/sitework/files';
import { placeOfRecord } from '@backsight/store/sitework/photos';
import type { Act, Actor } from '../run.ts';
import { positionIn, readImage } from './steps/image.ts';
import { addSiteFile, mayNotCome, type GivenFile, type SiteFile } from './steps/siteFile.ts';

/** `original` and `jpeg` in base64; `jpeg` comes with HEIC alone. */
export type GivenPhoto = GivenFile & { name: string; original: string; jpeg: string | null };

/**
 * Reads the file and puts original and copy on the disk, outside any transaction; what it says of its place is told apart and left behind.
 * Refusals: not-found, not-on-this-visit, record-sealed, photo-not-announced, photo-of-another and those of `readImage`.
 */
export async function storePhoto(reader: Reader, input: GivenPhoto & { actor: Actor; directory: string }): Promise<Outcome<SiteFile>> {
  const { actor, directory, original: _original, jpeg: _jpeg, ...given } = input;
  const no = await mayNotCome(reader, { ...given, spoken: false }, actor);
  if (no) return no;
  const image = await readImage(input);
  if (!image.ok) return image;
  const { original, copy, mediaType } = image.value;
  const [house, taken] = [await placeOfRecord(reader, given.recordId), await positionIn(original)];
  const near = nearProperty(house && taken ? greatCircleKm(house, taken) * 1000 : null, taken?.accuracy ?? 0);
  return accept({
    ...given,
    near,
    original: { sha256: await storeFile(directory, original), bytes: original.length, mediaType },
    copy: { sha256: await storeFile(directory, copy), bytes: copy.length, mediaType: 'image/jpeg' },
  });
}

type Taken = { id: string; near: NearProperty; nearLimitM: number };

/** Refusals: photo-id-used, device-of-another, record-sealed, and those of the database's rules. */
export const addPhoto: Act<SiteFile, Taken> = {
  operation: 'sitework.photo',
  run: async (work, photo) => {
    const added = await addSiteFile(work, photo);
    return added.ok ? accept({ id: added.value.id, near: added.value.nearProperty!, nearLimitM: added.value.nearLimitM! }) : added;
  },
};
