// Alerts when somebody in a crawl space or attic or on a roof is not back in time; looked at every half minute.
import { alertReturns } from '@backsight/usecases/sitework/alertReturns';
import type { Job } from '../http/services.ts';

export const returns: Job = { name: 'alert of people not back', everyMs: 30_000, run: (services) => alertReturns(services) };
