// The files of photos on the disk: one that is missing or was changed is said, never hidden.
import { readStoredFile } from '@backsight/store/sitework/files';
import { smaller } from './image.ts';

/** Long side in points of what stands in lists and on paper. */
const SMALL_SIDE = 480;

/** The bytes under a fingerprint; null where they are missing or do not fit it any more. */
export const fileOf = (directory: string, sha256: string): Promise<Buffer | null> => readStoredFile(directory, sha256).catch(() => null);

/** A copy made small; null where its file is missing. */
export async function smallCopy(directory: string, sha256: string): Promise<Buffer | null> {
  const bytes = await fileOf(directory, sha256);
  return bytes && smaller(bytes, SMALL_SIDE);
}
