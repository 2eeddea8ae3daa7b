// Takes hold of a callback for one act, and writes what happened to it.
import type { Role } from '@backsight/domain/people/roles';
import { refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { State } from '@backsight/domain/callbacks/words';
import { lockCallback, saveEvent, setCallbackState, type CallbackRow, type Changed } from '@backsight/store/callbacks';
import { keepText } from '@backsight/store/text';
import type { Actor, Details, Work } from '../../run.ts';
import { followEvent } from './follow.ts';
import { changedSince } from './seen.ts';

export const rolesOf = (actor: Actor): readonly Role[] => (actor.kind === 'person' ? actor.roles : []);
export const isOwner = (roles: readonly Role[]): boolean => roles.includes('owner');
/** Opinions and reserves are for owner and lead inspector alone. */
export const seesOpinions = (roles: readonly Role[]): boolean => roles.includes('owner') || roles.includes('lead_inspector');
export const actorId = (actor: Actor): string | null => (actor.kind === 'person' ? actor.id : null);

/** Runs an act on the locked row, as it was looked at. What only the owner sees does not exist for others. Refusals: not-found, callback-changed. */
export async function withCallback<T>(work: Work, id: string, act: (callback: CallbackRow) => Promise<Outcome<T>>): Promise<Outcome<T>> {
  const callback = await lockCallback(work.tx, id);
  if (!callback || (callback.ownerOnly && !isOwner(rolesOf(work.actor)))) return refuse('not-found', { thing: 'callback' });
  return (await changedSince(work, callback, seesOpinions(rolesOf(work.actor)))) ?? act(callback);
}

/** `textId`: words that are kept already, by whatever else points at them. */
export type Happened = { kind: string; state: State; details?: Details; words?: string; textId?: string; changed?: Changed };
export type Done = { id: string; state: State; version: number; warnings: Warning[] };

/** Adds the event, moves the row and its clocks, and leaves the audit row. `words` are kept apart from the event. */
export async function record(work: Work, callback: CallbackRow, event: Happened, warnings: Warning[] = []): Promise<Outcome<Done>> {
  const version = callback.version + 1;
  const textId = event.words === undefined ? (event.textId ?? null) : await keepText(work.tx, work.newId(), event.words, work.now);
  const details = event.details ?? {};
  await saveEvent(work.tx, {
    id: work.newId(),
    callbackId: callback.id,
    seq: version,
    kind: event.kind,
    state: event.state,
    details,
    textId,
    actorId: actorId(work.actor),
    at: work.now,
  });
  await setCallbackState(work.tx, callback.id, event.state, version, event.changed);
  await followEvent(work, callback, event);
  await work.did('callback', callback.id, {
    event: event.kind,
    number: callback.number,
    stateBefore: callback.state,
    stateAfter: event.state,
    ...details,
    warnings: warnings.map(({ code }) => code),
  });
  return { ok: true, value: { id: callback.id, state: event.state, version, warnings }, warnings };
}
