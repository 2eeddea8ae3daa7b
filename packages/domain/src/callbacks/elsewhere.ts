// The same gap on other jobs: what a record shows at a step, and who is told of it.
import type { Role } from '../people/roles.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { GAPS, type Gap, type Verdict } from './words.ts';

/**
 * A standing entry at the step (superseded ones left out). `answer` is compared between the two of a pair; `filled`: the service wrote it for
 * somebody who had put down nothing.
 */
export type PlaceEntry = { outcome: string; match: string; noted: boolean; filled: boolean; observerId: string; answer: string };

/** One place of a job at which the step was to be done: the property or one item. */
export type Place = {
  ownExtra: boolean;
  entries: readonly PlaceEntry[];
  /** Something that was recorded later in the same record checks what this step may have changed. */
  followed: boolean;
};

const NOT_DONE = ['could_not', 'from_opening', 'ended_before'];

/**
 * Every gap that the record shows at one place, in the order of `GAPS`. What the service filled in is nobody's look: it says why the step was not
 * done where nobody looked, and nothing beside an answer.
 */
export function gapsAt(place: Place): Gap[] {
  const looks = place.entries.filter(({ filled }) => !filled);
  const entries = looks.length > 0 ? looks : place.entries;
  const found = new Set<Gap>();
  const done = entries.some(({ outcome }) => outcome === 'done');
  if (entries.length === 0) found.add('no_entry');
  if (entries.some(({ outcome }) => NOT_DONE.includes(outcome))) found.add('could_not');
  if (entries.some(({ match }) => match === 'differs')) found.add('differs');
  if (done && !place.followed && !found.has('differs')) found.add('not_followed');
  if (entries.some(({ match, noted }) => match === 'outside' && !noted)) found.add('outside');
  if (looks.some((a) => looks.some((b) => a.observerId !== b.observerId && a.answer !== b.answer))) found.add('partner_differs');
  if (place.ownExtra && !done && !entries.some(({ outcome }) => outcome === 'none_at_property')) found.add('extra_not_done');
  return (Object.keys(GAPS) as Gap[]).filter((gap) => found.has(gap));
}

export type TellFacts = {
  roles: readonly Role[];
  /** Whoever decides is on call now. */
  onCall: boolean;
  verdict: Verdict | null;
  /** A demand, suit, board complaint or records request is among the callbacks of the action. */
  legal: boolean;
  told: boolean;
};
export type TellCommand = {
  decision: 'tell' | 'not_tell';
  danger: boolean;
  insurerWord: string;
  attorneyWord: string;
  /** What the letter says. */
  words: string;
};

/** The owner decides after the insurer's word; a danger to people is told at once and waits for nobody. */
export function decideTelling(facts: TellFacts, command: TellCommand): Outcome<null> {
  const owner = facts.roles.includes('owner');
  const atOnce = command.danger && command.decision === 'tell';
  if (!owner && !(atOnce && facts.onCall)) return refuse('telling-is-the-owners');
  if (facts.told) return refuse('told-already');
  if (facts.verdict === null && !atOnce) return refuse('look-first');
  if (command.decision === 'tell' && facts.verdict === 'fine') return refuse('no-gap-to-tell');
  if (command.decision === 'tell' && command.words.trim().length < 20) return refuse('danger-letter-empty', {}, 'words');
  if (atOnce) return accept(null);
  if (command.insurerWord.trim() === '') return refuse('insurer-word-missing', {}, 'insurerWord');
  return facts.legal && command.attorneyWord.trim() === '' ? refuse('attorney-word-missing', {}, 'attorneyWord') : accept(null);
}
