// Corrective actions: made from callbacks, linked to the revision they bring, done when the change is there.
import { decideAction, mayFinish, mayLink } from '@backsight/domain/callbacks/action';
import type { ActionKind } from '@backsight/domain/callbacks/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import {
  concludedAmong,
  endAction,
  linkActionRevision,
  lockAction,
  revisionStanding,
  saveAction,
} from '@backsight/store/callbacks/actions';
import { findFirm } from '@backsight/store/firm';
import { nextNumber } from '@backsight/store/numbers';
import { findPerson } from '@backsight/store/people';
import type { Act, Work } from '../run.ts';
import { dayAt } from './steps/day.ts';

export type NewActionInput = {
  id: string;
  kind: ActionKind;
  title: string;
  why: string;
  ownerId: string;
  dueOn: string;
  callbackIds: string[];
};

export const createAction: Act<NewActionInput, { id: string; number: number }> = { operation: 'callbacks.action', run: create };

async function create(work: Work, input: NewActionInput): Promise<Outcome<{ id: string; number: number }>> {
  const callbackIds = [...new Set(input.callbackIds)];
  const zone = (await findFirm(work.tx))?.zone ?? 'UTC';
  const may = decideAction(
    { asked: callbackIds.length, concluded: await concludedAmong(work.tx, callbackIds), today: dayAt(work.now, zone) },
    input,
  );
  if (!may.ok) return may;
  if (!(await findPerson(work.tx, input.ownerId))) return refuse('not-found', { thing: 'person' }, 'ownerId');
  const number = await nextNumber(work.tx, 'corrective-action');
  await saveAction(work.tx, { ...input, callbackIds, number, recordedAt: work.now });
  await work.did('corrective-action', input.id, { number, kind: input.kind, callbacks: callbackIds, dueOn: input.dueOn });
  return accept({ id: input.id, number });
}

/** Says which drafted or approved revision the action brings. */
export const linkRevision: Act<{ id: string; revisionId: string }, { id: string }> = {
  operation: 'callbacks.link-revision',
  run: async (work, { id, revisionId }) => {
    const action = await lockAction(work.tx, id);
    if (!action) return refuse('not-found', { thing: 'corrective action' });
    const may = mayLink(action);
    if (!may.ok) return may;
    if (!(await revisionStanding(work.tx, revisionId, work.now))) return refuse('not-found', { thing: 'revision' }, 'revisionId');
    await linkActionRevision(work.tx, id, revisionId);
    await work.did('corrective-action', id, { event: 'linked', revisionId });
    return accept({ id });
  },
};

export const finishAction: Act<{ id: string; outcome: 'done' | 'dropped' }, { id: string }> = {
  operation: 'callbacks.finish-action',
  run: async (work, { id, outcome }) => {
    const action = await lockAction(work.tx, id);
    if (!action) return refuse('not-found', { thing: 'corrective action' });
    const standing = action.revisionId === null ? null : await revisionStanding(work.tx, action.revisionId, work.now);
    const may = mayFinish(action, outcome === 'dropped' || (standing?.inForce ?? false));
    if (!may.ok) return may;
    await endAction(work.tx, id, outcome, work.now);
    await work.did('corrective-action', id, { event: outcome });
    return accept({ id });
  },
};
