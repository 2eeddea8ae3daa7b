// Works at spreadsheets that wait, every second; jobs that were done before change whose claim windows are open, so those sums are made anew.
import { dropFilesOfBringIns, workAtBringIns } from '@backsight/usecases/firm/bringIn/work';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import type { Job } from '../http/services.ts';

export const bringIns: Job = {
  name: 'bring records in',
  everyMs: 1_000,
  run: async (services) => {
    if ((await workAtBringIns(services)).includes('jobs')) await rebuildFigures(services);
  },
};

export const oldSpreadsheets: Job = { name: 'drop files of spreadsheets', everyMs: 3_600_000, run: dropFilesOfBringIns };
