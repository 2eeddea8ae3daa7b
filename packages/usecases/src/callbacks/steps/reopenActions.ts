// A step fails again after the change that was to prevent it: the corrective action opens again, and whoever sees to it is told.
import { recurs } from '@backsight/domain/callbacks/action';
import type { Concluded } from '@backsight/domain/callbacks/conclusion';
import { blamesStep } from '@backsight/domain/callbacks/words';
import { actionsOnStep } from '@backsight/store/callbacks/change';
import type { CallbackRow } from '@backsight/store/callbacks';
import type { Work } from '../../run.ts';
import { recordAction } from './action.ts';

type Failed = { conclusionId: string; concluded: Pick<Concluded, 'cause' | 'stepKey'> };

/** In the transaction of the conclusion; a conclusion opens an action once. Answers the numbers of the actions that it concerns. */
export async function reopenActions(work: Work, callback: CallbackRow, { conclusionId, concluded }: Failed): Promise<number[]> {
  const { stepKey, cause } = concluded;
  if (stepKey === null || !blamesStep(cause) || callback.kind === 'question') return [];
  const numbers: number[] = [];
  for (const action of await actionsOnStep(work.tx, stepKey, callback.id, work.now)) {
    if (!recurs({ state: action.state, changedAt: action.changedAt?.getTime() ?? null }, action.inspectedAt?.getTime() ?? null)) continue;
    await recordAction(
      work,
      action,
      { kind: 'recurred', details: { callbackNumber: callback.number, stepKey }, conclusionId, audit: { conclusionId } },
      { state: 'open', doneAt: null, reopenedAt: work.now },
    );
    const stands =
      action.toName === action.owner
        ? 'stands on your home'
        : `${action.owner}, who saw to it, has left the firm: please name somebody else under "Change the plan"`;
    await work.mail({
      messageKey: `action-recurred-${action.id}-${conclusionId}`,
      toAddress: action.toEmail,
      toName: action.toName,
      subject: `Corrective action ${action.number} is open again`,
      aboutKind: 'corrective-action',
      aboutId: action.id,
      body: `${action.toName},\n\nthe step that corrective action ${action.number} changed has failed again on a job inspected after the change. The action is open again and ${stands}.\n`,
    });
    numbers.push(action.number);
  }
  return numbers;
}
