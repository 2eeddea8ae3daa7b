// Takes in a spoken note from the phone on which its entry was written; it comes, waits and is kept as photos are.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { storeFile } from '@backsight/store/sitework/files';
import type { Act, Actor } from '../run.ts';
import { addSiteFile, mayNotCome, type GivenFile, type SiteFile } from './steps/siteFile.ts';
import { readSound } from './steps/sound.ts';

/** `original` in base64; `seconds` as the phone counted them. */
export type GivenSpoken = GivenFile & { original: string; seconds: number };

/**
 * Reads the sound and puts it on the disk, outside any transaction. Refusals: not-found, not-on-this-visit, record-sealed,
 * photo-not-announced, photo-of-another and those of `readSound`.
 */
export async function storeSpoken(reader: Reader, input: GivenSpoken & { actor: Actor; directory: string }): Promise<Outcome<SiteFile>> {
  const { actor, directory, original, ...given } = input;
  const no = await mayNotCome(reader, { ...given, spoken: true }, actor);
  if (no) return no;
  const sound = readSound(original);
  if (!sound.ok) return sound;
  const { bytes, mediaType } = sound.value;
  return accept({
    ...given,
    original: { sha256: await storeFile(directory, bytes), bytes: bytes.length, mediaType },
    copy: null,
    near: null,
  });
}

/** Refusals: photo-id-used, device-of-another, record-sealed, and those of the database's rules. */
export const addSpoken: Act<SiteFile, { id: string }> = {
  operation: 'sitework.spoken',
  run: async (work, note) => {
    const added = await addSiteFile(work, note);
    return added.ok ? accept({ id: added.value.id }) : added;
  },
};
