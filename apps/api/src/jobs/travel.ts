// Asks the road service for driving times that will be needed, every minute; fits speeds to the recorded drives once a month.
import { fillTravel } from '@backsight/usecases/schedule/fillTravel';
import { refitMonthly } from '@backsight/usecases/schedule/refitTravel';
import { roadServiceOf } from '../http/roadService.ts';
import type { Job } from '../http/services.ts';

export const roadTimes: Job = {
  name: 'ask the road service',
  everyMs: 60_000,
  run: (services) => fillTravel(services, roadServiceOf(services.config)),
};

export const travelFits: Job = { name: 'fit driving times', everyMs: 3_600_000, run: (services) => refitMonthly(services) };
