// Forgets keys of requests of more than a week ago; looked at every hour.
import { forgetKeys } from '@backsight/usecases/firm/forgetKeys';
import type { Job } from '../http/services.ts';

export const oldKeys: Job = {
  name: 'forget keys of old requests',
  everyMs: 3_600_000,
  run: ({ database, clock }) => forgetKeys({ database, now: clock() }),
};
