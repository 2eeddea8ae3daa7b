// Callbacks of one property that belong together: one that says the same once more, and one that came back.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { LinkKind } from './intakeWords.ts';
import { STATES, type Kind, type State } from './words.ts';

/** `duplicateOf` and `repeatOf` are ids; `hasDuplicates`: others are filed as the same as this one. */
export type Linkable = {
  id: string;
  number: number;
  kind: Kind;
  state: State;
  propertyId: string;
  ownerOnly: boolean;
  safety: boolean;
  duplicateOf: string | null;
  repeatOf: string | null;
  hasDuplicates: boolean;
};

/** `decided`: something was concluded, proposed, set aside or paid in it. */
export type LinkAsk = { link: LinkKind; decided: boolean };

/** States that a duplicate can be in when it is found out: nothing was decided in it. */
const EARLY: readonly State[] = ['received', 'acknowledged', 'looking_into'];

/** What follows for both. `alarms`: the first one is a danger to people from now on, because the duplicate says so. */
export type Linked = { state: State; alarms: boolean };

/**
 * Whether `later` may be linked to `first`. A duplicate is closed without a clock; a repeat goes on. What only the owner sees never becomes
 * part of what others see, and the other way round a duplicate is not hidden in it.
 */
export function decideLink(later: Linkable, first: Linkable, { link, decided }: LinkAsk): Outcome<Linked> {
  if (later.id === first.id || later.propertyId !== first.propertyId) return refuse('link-of-another-property', {}, 'link.to');
  if (later.kind === 'near_miss' || first.kind === 'near_miss') return refuse('near-miss-not-linked', {}, 'link.to');
  if (later.duplicateOf !== null || later.repeatOf !== null) return refuse('linked-already', { number: later.number });
  if (first.duplicateOf !== null) return refuse('duplicate-of-a-duplicate', { number: first.number }, 'link.to');
  if (link === 'repeat') return accept({ state: later.state, alarms: false });
  if (later.hasDuplicates) return refuse('duplicate-of-a-duplicate', { number: later.number });
  if (later.ownerOnly !== first.ownerOnly) return refuse('duplicate-owner-only', {}, 'link.to');
  if (first.state === 'closed') return refuse('duplicate-of-closed', { number: first.number }, 'link.to');
  if (decided || !EARLY.includes(later.state)) return refuse('duplicate-decided', { state: STATES[later.state] });
  return accept({ state: 'closed', alarms: later.safety && !first.safety });
}

/** A wrong link is taken back: a duplicate goes on in the state in which it was, with its own clocks as they were. */
export function decideUnlink(later: Linkable, stateBefore: State): Outcome<State> {
  if (later.duplicateOf !== null) return accept(stateBefore);
  return later.repeatOf !== null ? accept(later.state) : refuse('not-linked');
}

/** A duplicate is opened again, or turned into something else, only after its link was taken back: else it would have a second clock. */
export const standsAlone = ({ duplicateOfId }: { duplicateOfId: string | null }): Outcome<null> =>
  duplicateOfId === null ? accept(null) : refuse('duplicate-stays-closed');
