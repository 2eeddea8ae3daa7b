// Corrective actions: what is changed because of callbacks, when that is done, and whether it helped.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { ActionKind, ReviewResult } from './words.ts';

export type ActionState = 'open' | 'done' | 'dropped';

/** What must not stand in words that many people read: of the callbacks that the action comes from. */
export type CaseFacts = { names: readonly string[]; addresses: readonly string[] };

/** Refuses words that name a client or an address of these callbacks, or an amount of money. */
export function namesNoCase(text: string, cases: CaseFacts, field: string): Outcome<null> {
  const said = plain(text.toLowerCase());
  const address = cases.addresses.find((one) => said.includes(plain(one.toLowerCase())));
  if (address) return refuse('text-names-case', { what: 'the address', found: address }, field);
  const name = cases.names.find(
    (one) => one.trim() !== '' && (said.includes(plain(one.toLowerCase())) || plain(text).includes(plain(familyOf(one)))),
  );
  if (name) return refuse('text-names-case', { what: "the client's name", found: name }, field);
  const amount = AMOUNT.exec(text);
  return amount ? refuse('text-names-case', { what: 'the amount', found: amount[0] }, field) : accept(null);
}

const AMOUNT = /[$€£]\s?\d[\d,.]*|\b\d[\d,]{0,20}(?:\.\d\d)?\s?(?:dollars|USD)\b/i;
const plain = (text: string): string => ` ${text.replace(/[^\p{L}\p{N}]+/gu, ' ').trim()} `;
/** The family name, as it is written: "Prior" names somebody, "prior" does not. */
const familyOf = (name: string): string => name.trim().split(/\s+/).at(-1)!;

export type PlannedAction = { kind: ActionKind; dueOn: string | null; reviewOn: string | null; reviewerId: string | null };

/** It comes from callbacks with a conclusion, and is due today or later; deciding to change nothing is done at once and due never. */
export function decideAction(facts: { concluded: number; asked: number; today: string }, command: PlannedAction): Outcome<null> {
  if (facts.asked === 0 || facts.concluded < facts.asked) return refuse('no-callback-for-action', {}, 'callbackIds');
  return planAction(facts.today, command);
}

/** Days of the plan, also when it is changed later. */
export function planAction(today: string, { kind, dueOn, reviewOn, reviewerId }: PlannedAction): Outcome<null> {
  if (kind !== 'none' && dueOn === null) return refuse('due-day-missing', {}, 'dueOn');
  if (kind !== 'none' && dueOn !== null && dueOn < today) return refuse('due-day-past', { day: dueOn }, 'dueOn');
  if ((reviewOn === null) !== (reviewerId === null))
    return refuse('review-half-planned', {}, reviewOn === null ? 'reviewOn' : 'reviewerId');
  const earliest = dueOn ?? today;
  return reviewOn !== null && reviewOn < earliest ? refuse('review-before-due', { dueOn: earliest }, 'reviewOn') : accept(null);
}

export type ActionFacts = { kind: ActionKind; state: ActionState };

/** Links the revision that the action brings; one that was withdrawn brings nothing. */
export function mayLink(action: ActionFacts, revision?: { number: number; state: string }): Outcome<null> {
  if (action.state !== 'open') return refuse('action-closed', { state: action.state });
  if (action.kind !== 'revision') return refuse('action-takes-no-revision');
  return revision?.state === 'withdrawn' ? refuse('revision-withdrawn', { number: revision.number }, 'revisionId') : accept(null);
}

export type FinishCommand = {
  outcome: 'done' | 'dropped';
  what: string;
  doneOn: string | null;
  /** People of the firm who attended a training. */
  attendees: readonly string[];
  /** Which kit was bought, replaced or calibrated. */
  kit: string;
};
export type FinishFacts = ActionFacts & { revisionInForce: boolean; reopened: boolean; decidedOn: string; today: string };

/**
 * Ends an action. Training and kit are done when somebody says what was done, by whom and when; a revision by itself when it is in
 * force. One that was reopened may also end with the words why the change stands as it is.
 */
export function mayFinish(action: FinishFacts, command: FinishCommand): Outcome<{ doneOn: string }> {
  if (action.state !== 'open') return refuse('action-closed', { state: action.state });
  const what = command.what.trim();
  const doneOn = command.doneOn ?? action.today;
  if (command.outcome === 'dropped') return what === '' ? refuse('dropped-without-why', {}, 'what') : accept({ doneOn });
  if (action.kind === 'revision' && !action.revisionInForce && !(action.reopened && what !== ''))
    return refuse('action-waits-for-revision');
  if (action.kind === 'revision') return accept({ doneOn: action.today });
  if (what === '') return refuse('action-without-what', {}, 'what');
  if (doneOn > action.today) return refuse('done-day-ahead', { day: doneOn }, 'doneOn');
  if (doneOn < action.decidedOn) return refuse('done-before-decided', { day: action.decidedOn }, 'doneOn');
  if (action.kind === 'training' && command.attendees.length === 0) return refuse('training-without-people', {}, 'attendees');
  if (action.kind === 'kit' && command.kit.trim() === '') return refuse('kit-without-which', {}, 'kit');
  return accept({ doneOn });
}

/** Instants in ms. Whether a failure of the changed step on a job says that the change did not hold. */
export const recurs = (action: { state: ActionState; changedAt: number | null }, inspectedAt: number | null): boolean =>
  action.state !== 'dropped' && action.changedAt !== null && inspectedAt !== null && inspectedAt >= action.changedAt;

export type ReviewFacts = { state: ActionState; changed: boolean; today: string };

/** A review says whether the change worked; when it is too early, it says when somebody looks again. */
export function decideReview(facts: ReviewFacts, command: { result: ReviewResult; nextOn: string | null }): Outcome<null> {
  if (facts.state === 'dropped') return refuse('action-closed', { state: facts.state });
  if (!facts.changed) return refuse('nothing-in-force');
  if (command.result === 'too_early' && (command.nextOn === null || command.nextOn <= facts.today))
    return refuse('review-next-day', {}, 'nextOn');
  return accept(null);
}
