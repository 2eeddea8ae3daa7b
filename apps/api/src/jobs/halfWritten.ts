// Removes halves of files that a killed service left behind, and files that no row names a week later; looked at every hour.
import { clearHalfWritten } from '@backsight/usecases/sitework/clearHalfWritten';
import { removeUnnamedFiles } from '@backsight/usecases/sitework/removeUnnamedFiles';
import type { Job } from '../http/services.ts';

export const halfWritten: Job = {
  name: 'remove halves of files and files that nothing names',
  everyMs: 3_600_000,
  run: async ({ database, config, clock }) => {
    const parts = { directory: config.dataDir, now: clock() };
    return (await clearHalfWritten(parts)) + (await removeUnnamedFiles({ ...parts, database }));
  },
};
