// Ends corrective actions whose revision has come into force, every minute.
import { finishReadyActions } from '@backsight/usecases/callbacks/finishReadyActions';
import type { Job } from '../http/services.ts';

export const actions: Job = {
  name: 'end corrective actions whose revision is in force',
  everyMs: 60_000,
  run: (services) => finishReadyActions(services),
};
