// What is written down at a step: outcomes, reasons and evidence.

import type { Measures } from './accessLimits.ts';

export const OUTCOMES = {
  done: 'done',
  none_at_property: 'none at this property',
  could_not: 'could not be inspected',
  /** Entering means bodily (WAC 308-408-010(5)): looking through the hatch is an outcome of its own. */
  from_opening: 'looked at from the opening only',
  ended_before: 'visit ended before',
} as const;
export type StepOutcome = keyof typeof OUTCOMES;

/** Why something could not be inspected. `unsafe` is never asked for more. */
export const REASONS = {
  unsafe: 'could not be inspected safely',
  no_way_in: 'no way in, or too tight',
  blocked: 'blocked by belongings or finishes',
  locked: 'locked or sealed',
  snow_or_ice: 'snow, ice or weather',
  utilities_off: 'water, gas or electricity off',
  occupant_objects: 'occupant objects',
  not_operable: 'does not operate',
  other: 'another reason, in the note',
} as const;
export type CouldNotReason = keyof typeof REASONS;

/** Why an entry takes the place of an earlier one of the same person. */
export const CORRECTIONS = {
  mistyped: 'mistyped',
  looked_again: 'looked again',
  settled_with_partner: 'settled with the partner',
  wrong_item: 'meant another item',
} as const;
export type CorrectionReason = keyof typeof CORRECTIONS;

/** Why a step that asks for a photo was done without one. */
export const WITHOUT_PHOTO = {
  private: 'it would show people or private things',
  not_wanted: 'the occupant does not want it',
  cannot_show: 'no light, or no place to take it from',
  camera: 'the camera does not work',
  other: 'another reason, in the note',
} as const;
export type WithoutPhoto = keyof typeof WITHOUT_PHOTO;

/** Readings are in the unit of their step. Words of a note are kept apart from this. */
export type EntryEvidence =
  | { kind: 'confirm' }
  | { kind: 'reading'; value: number; unit: string }
  | { kind: 'difference'; first: number; second: number; unit: string }
  | { kind: 'count'; count: number }
  | { kind: 'choice'; option: string }
  | { kind: 'note' }
  /** The photos are named beside it; where there is none, why. */
  | { kind: 'photo'; without?: WithoutPhoto };

/** as_expected, outside: against a range or an earlier count; a hint, never a verdict. */
export type EntryMatch = 'not_asked' | 'as_expected' | 'outside' | 'differs';

/** An entry as far as other entries are compared with it. `order` sorts entries of one record as they were made. */
export type KnownEntry = {
  id: string;
  stepKey: string;
  itemId: string | null;
  outcome: StepOutcome;
  evidence: EntryEvidence | null;
  observedBy: string;
  supersedesId: string | null;
  /** Filled in because a stop or a danger closed the step: anything that was really looked at counts before it. */
  filled?: boolean;
  measures?: Measures | null;
  order: string;
};

/** Whether the service wrote it for somebody who had put down nothing: the visit ended, or danger closed the step. It is nobody's look. */
export const isFilled = (entry: Pick<KnownEntry, 'outcome' | 'filled'>): boolean =>
  entry.outcome === 'ended_before' || entry.filled === true;

/** Key of the place where entries meet: one step at the property or at one item. */
export const placeOf = (at: { stepKey: string; itemId: string | null }): string => `${at.stepKey}@${at.itemId ?? 'property'}`;
