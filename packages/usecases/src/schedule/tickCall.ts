// A call to a client because of a plan is done, or is not after all.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { setCallDone } from '@backsight/store/schedule/plans';
import type { Act } from '../run.ts';

export const tickCall: Act<{ id: string; done: boolean }, { id: string }> = {
  operation: 'schedule.tick-call',
  run: async (work, { id, done }) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const call = await setCallDone(work.tx, id, done ? { at: work.now, by: work.actor.id } : null);
    if (!call) return refuse('not-found', { thing: 'call' });
    await work.did('visit', call.visitId, { planId: call.planId, called: done });
    return accept({ id });
  },
};
