// What every act on a corrective action needs: the locked row for whoever may see it, and its history.
import { namesNoCase } from '@backsight/domain/callbacks/action';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { changeAction, lockAction, saveActionEvent, type ActionChange, type ActionRow } from '@backsight/store/callbacks/actions';
import { casesOf } from '@backsight/store/callbacks/change';
import { keepText } from '@backsight/store/text';
import type { Details, Work } from '../../run.ts';
import { actorId, isOwner, rolesOf, seesOpinions } from './callback.ts';

/** Owner and lead inspectors see every action; whoever sees to one or reviews it sees that one, without the callbacks. */
export const seesAction = (action: Pick<ActionRow, 'ownerId' | 'reviewerId'>, actor: Work['actor']): boolean =>
  seesOpinions(rolesOf(actor)) || actorId(actor) === action.ownerId || (action.reviewerId !== null && actorId(actor) === action.reviewerId);

/** Runs an act on the locked row. What somebody may not see does not exist for them. */
export async function withAction<T>(work: Work, id: string, act: (action: ActionRow) => Promise<Outcome<T>>): Promise<Outcome<T>> {
  const action = await lockAction(work.tx, id);
  if (!action || !seesAction(action, work.actor)) return refuse('not-found', { thing: 'corrective action' });
  return act(action);
}

export type ActionHappened = {
  kind: 'decided' | 'replanned' | 'linked' | 'done' | 'dropped' | 'recurred' | 'reviewed';
  details?: object;
  words?: string;
  conclusionId?: string;
  /** Codes, days and ids for the audit row. */
  audit?: Details;
};

/** Changes the row, adds the event and leaves the audit row. The words are kept apart. */
export async function recordAction(
  work: Work,
  action: Pick<ActionRow, 'id' | 'version'>,
  event: ActionHappened,
  change: ActionChange | null = {},
): Promise<void> {
  if (change) await changeAction(work.tx, action.id, change);
  const textId = event.words?.trim() ? await keepText(work.tx, work.newId(), event.words, work.now) : null;
  await saveActionEvent(work.tx, {
    id: work.newId(),
    actionId: action.id,
    // The event that decides comes with the row itself: version 1.
    seq: change ? action.version + 1 : action.version,
    kind: event.kind,
    details: event.details ?? {},
    textId,
    conclusionId: event.conclusionId ?? null,
    actorId: actorId(work.actor),
    happenedAt: work.now,
  });
  await work.did('corrective-action', action.id, { event: event.kind, ...event.audit });
}

/** Refuses texts that name a client, an address or an amount of these callbacks. */
export async function namesNone(work: Work, callbackIds: readonly string[], texts: Record<string, string>): Promise<Outcome<null>> {
  const cases = await casesOf(work.tx, callbackIds);
  const facts = { names: cases.flatMap(({ names }) => names), addresses: cases.map(({ address }) => address) };
  for (const [field, text] of Object.entries(texts)) {
    const clean = namesNoCase(text, facts, field);
    if (!clean.ok) return clean;
  }
  return accept(null);
}

/** Whether one of these callbacks is for the owner alone and somebody else acts. */
export const hidden = async (work: Work, callbackIds: readonly string[]): Promise<boolean> =>
  !isOwner(rolesOf(work.actor)) && (await casesOf(work.tx, callbackIds)).some(({ ownerOnly }) => ownerOnly);
