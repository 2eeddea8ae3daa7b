// Reminds inspectors of revisions that they have not acknowledged; looked at every ten minutes.
import { remindOfRevisions } from '@backsight/usecases/procedures/remindToAcknowledge';
import type { Job } from '../http/services.ts';

export const acknowledgements: Job = {
  name: 'remind to acknowledge revisions',
  everyMs: 600_000,
  run: ({ database, runner, clock, config }) => remindOfRevisions({ database, runner, clock, publicUrl: config.publicUrl }),
};
