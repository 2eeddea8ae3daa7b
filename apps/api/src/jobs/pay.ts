// Once a visit is over, who did it and what the rule pays is frozen; looked at every minute.
import { freezePayOf } from '@backsight/usecases/fees/pay';
import type { Job } from '../http/services.ts';

export const pay: Job = { name: 'freeze pay', everyMs: 60_000, run: (services) => freezePayOf(services) };
