// Removes files that no row names a week after they were written.
import type { Database } from '@backsight/store/database';
import { removeUnnamedFiles as remove } from '@backsight/store/sitework/unnamedFiles';

/** Answers how many. */
export const removeUnnamedFiles = (parts: { database: Database; directory: string; now: Date }): Promise<number> =>
  remove(parts.database.read, parts.directory, parts.now);
