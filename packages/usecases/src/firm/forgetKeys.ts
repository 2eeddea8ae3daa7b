// Forgets what was answered to requests of more than a week ago: nobody sends those again.
import type { Database } from '@backsight/store/database';
import { forgetOldKeys } from '@backsight/store/idempotency';

/** Answers how many. */
export const forgetKeys = ({ database, now }: { database: Database; now: Date }): Promise<number> =>
  database.transaction((tx) => forgetOldKeys(tx, now));
