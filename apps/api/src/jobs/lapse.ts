// Ends holds whose time is over, every minute.
import { lapseHolds } from '@backsight/usecases/jobs/lapseHolds';
import type { Job } from '../http/services.ts';

export const lapse: Job = { name: 'end holds whose time is over', everyMs: 60_000, run: (services) => lapseHolds(services) };
