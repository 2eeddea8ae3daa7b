// Reminds by mail to sign, to pay and of tomorrow's visit; looked at every five minutes.
import { remindAll } from '@backsight/usecases/mail/remind';
import type { Job } from '../http/services.ts';

export const remind: Job = {
  name: 'remind by mail',
  everyMs: 300_000,
  run: ({ database, runner, clock, config }) => remindAll({ database, runner, clock, publicUrl: config.publicUrl }),
};
