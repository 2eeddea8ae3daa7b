// Tells by mail what lapses; looked at every hour.
import { tellLapses } from '@backsight/usecases/people/warnOfLapses';
import type { Job } from '../http/services.ts';

export const lapses: Job = { name: 'tell what lapses', everyMs: 3_600_000, run: (services) => tellLapses(services) };
