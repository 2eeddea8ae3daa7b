// Takes the bytes of erased files from the disk; their fingerprints stay in the database.
import type { Database } from '@backsight/store/database';
import { erasedFiles } from '@backsight/store/personal/retention';
import { removeStoredFile } from '@backsight/store/sitework/files';

/** Answers how many files went. Doing it again does nothing. */
export async function sweepErasedFiles(parts: { database: Database; dataDir: string }): Promise<number> {
  let gone = 0;
  for (const sha256 of await erasedFiles(parts.database.read)) if (await removeStoredFile(parts.dataDir, sha256)) gone += 1;
  return gone;
}
