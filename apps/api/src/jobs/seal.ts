// Seals the audit trail every second; every hour the whole of it is looked at, for rows that a clock wrote far in the past.
import { sealAudit } from '@backsight/usecases/audit/seal';
import type { Job } from '../http/services.ts';

export const seal: Job = {
  name: 'seal the audit trail',
  everyMs: 1000,
  run: ({ database }) => sealAudit(database, { near: true }),
};

export const sealWhole: Job = {
  name: 'look through the whole audit trail for what is not sealed',
  everyMs: 3_600_000,
  run: async ({ database }) => {
    while ((await sealAudit(database, { limit: 5000 })) > 0);
  },
};
