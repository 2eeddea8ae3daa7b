// Freezes pay every minute for what is new; every hour everything that was ever done is looked at, for what came late.
import { freezePayOf } from '@backsight/usecases/fees/pay';
import type { Job } from '../http/services.ts';

export const pay: Job = { name: 'freeze pay', everyMs: 60_000, run: (services) => freezePayOf(services, { near: true }) };

export const payWhole: Job = {
  name: 'look through all visits for pay that is not frozen',
  everyMs: 3_600_000,
  run: (services) => freezePayOf(services),
};
