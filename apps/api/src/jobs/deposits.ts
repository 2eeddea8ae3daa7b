// Once a visit has begun, its deposit pays what is owed; looked at every minute.
import { earnDeposits } from '@backsight/usecases/fees/earnDeposits';
import type { Job } from '../http/services.ts';

export const deposits: Job = { name: 'earn deposits', everyMs: 60_000, run: (services) => earnDeposits(services) };
