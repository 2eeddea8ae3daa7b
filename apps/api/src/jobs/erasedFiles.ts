// Takes the bytes of erased files from the disk, every minute.
import { sweepErasedFiles } from '@backsight/usecases/personal/sweep';
import type { Job } from '../http/services.ts';

export const erasedFiles: Job = {
  name: 'take erased files from the disk',
  everyMs: 60_000,
  run: ({ database, config }) => sweepErasedFiles({ database, dataDir: config.dataDir }),
};
