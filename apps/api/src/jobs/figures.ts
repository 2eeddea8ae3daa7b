// Makes the sums of the liability pages anew, once a night; it looks every ten minutes.
import { rebuildFiguresAtNight } from '@backsight/usecases/liability/figures';
import type { Job } from '../http/services.ts';

export const figures: Job = {
  name: 'sum up the figures of the night',
  everyMs: 600_000,
  run: (services) => rebuildFiguresAtNight(services),
};
