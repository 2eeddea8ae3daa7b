// The first assessment of a callback, and each later one: how grave it is, whether something is needed at once, and who looks into it.
import type { Severity } from '@backsight/domain/callbacks/after';
import { moveTo } from '@backsight/domain/callbacks/state';
import { refuse } from '@backsight/domain/shared/outcome';
import { deskPeople, saveAssessment } from '@backsight/store/callbacks/after';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';

export type AssessInput = { id: string; severity: Severity; atOnce: boolean; assigneeId: string; words?: string };

/** Refusals: callback-state, assignee-cannot. */
export const assessCallback: Act<AssessInput, Done> = {
  operation: 'callbacks.look-into',
  run: (work, { id, words, ...assessment }) =>
    withCallback(work, id, async (callback) => {
      const next = moveTo(callback, 'look_into');
      if (!next.ok) return next;
      const { today } = await localDay(work.tx, work.now);
      const assignee = (await deskPeople(work.tx, today)).find((one) => one.id === assessment.assigneeId);
      if (!assignee || (callback.ownerOnly && !assignee.owner)) return refuse('assignee-cannot', {}, 'assigneeId');
      await saveAssessment(work.tx, { id: work.newId(), callbackId: id, ...assessment, actorId: actorId(work.actor)!, at: work.now });
      return record(work, callback, {
        kind: 'looking_into',
        state: next.value,
        details: assessment,
        ...(words === undefined ? {} : { words }),
      });
    }),
};
