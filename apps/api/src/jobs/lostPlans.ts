// Ends plans whose service was started again or killed; looked at every minute. A plan takes minutes at most, so nobody makes older ones.
import { losePlans } from '@backsight/usecases/schedule/endPlan';
import type { Job } from '../http/services.ts';

const LONGEST_MS = 600_000;

export const lostPlans: Job = {
  name: 'end plans that nobody makes any more',
  everyMs: 60_000,
  run: async ({ runner, clock }) => {
    const lost = await runner.run(losePlans, { until: new Date(clock().getTime() - LONGEST_MS) }, { actor: { kind: 'service' } });
    return lost.ok ? lost.value.lost : 0;
  },
};
