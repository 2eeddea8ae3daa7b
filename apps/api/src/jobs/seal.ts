// Chains the newest audit rows, every second.
import { sealAudit } from '@backsight/usecases/audit/seal';
import type { Job } from '../http/services.ts';

export const seal: Job = { name: 'seal the audit trail', everyMs: 1000, run: (services) => sealAudit(services.database) };
