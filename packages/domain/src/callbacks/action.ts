// Corrective actions: what is changed because of callbacks, and when that is done.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { ActionKind } from './words.ts';

export type ActionState = 'open' | 'done' | 'dropped';

/** It comes from callbacks with a conclusion, and is due today or later. */
export function decideAction(facts: { concluded: number; asked: number; today: string }, command: { dueOn: string }): Outcome<null> {
  if (facts.asked === 0 || facts.concluded < facts.asked) return refuse('no-callback-for-action', {}, 'callbackIds');
  return command.dueOn < facts.today ? refuse('due-day-past', { day: command.dueOn }, 'dueOn') : accept(null);
}

export type ActionFacts = { kind: ActionKind; state: ActionState };

/** Links the revision that the action brings. */
export function mayLink(action: ActionFacts): Outcome<null> {
  if (action.state !== 'open') return refuse('action-closed', { state: action.state });
  return action.kind === 'revision' ? accept(null) : refuse('action-takes-no-revision');
}

/** Training and kit are done when somebody says so; a revision by itself when it is in force. */
export function mayFinish(action: ActionFacts, revisionInForce: boolean): Outcome<null> {
  if (action.state !== 'open') return refuse('action-closed', { state: action.state });
  return action.kind !== 'revision' || revisionInForce ? accept(null) : refuse('action-waits-for-revision');
}
