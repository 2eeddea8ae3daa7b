// Checks of kit with a date, and kit that has to fit: sizes and lengths.
import { shiftDay } from '../shared/calendar.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const CHECK_KINDS = { battery: 'battery', bump_test: 'gas-sensor bump test', ladder: 'ladder check' } as const;
export type CheckKind = keyof typeof CHECK_KINDS;

/** Day on which a check is due again; null when it was never done: it is due now. */
export const checkDueOn = (doneOn: string | null, everyDays: number): string | null =>
  doneOn === null ? null : shiftDay(doneOn, everyDays);

/** A check that this kind needs, on a day that has come. */
export function mayNoteCheck(needed: readonly string[], checkKind: string, onDay: string, today: string): Outcome<null> {
  if (!needed.includes(checkKind)) return refuse('kit-check-not-needed', {}, 'checkKind');
  return onDay > today ? refuse('kit-check-in-future', {}, 'onDay') : accept(null);
}

/** Sizes of what is worn. Who wears a tight-fitting respirator is fit-tested with the same size (29 CFR 1910.134(f)(1)). */
export const SIZES = ['XS', 'S', 'M', 'L', 'XL', '2XL', '3XL', '4XL'] as const;
export type Size = (typeof SIZES)[number];

/** Feet from the ground to the eave by story, and lengths in which extension ladders are sold: common practice. */
const FEET_PER_STORY = 10;
const SOLD_FEET = [16, 20, 24, 28, 32, 36, 40] as const;
/** Side rails reach 3 ft above the landing (29 CFR 1926.1053(b)(1)), one foot out for four up (b)(5)(i). */
const ABOVE_LANDING = 3;
const ALONG_RAIL = Math.sqrt(17) / 4;
/** Sections overlap by 3 ft up to 36 ft of nominal length, by 4 ft above: common practice of makers. */
const overlapOf = (feet: number): number => (feet <= 36 ? 3 : 4);

/** The shortest nominal length in feet of an extension ladder for the eave of so many stories; null when none is sold. */
export function ladderFeetFor(stories: number): number | null {
  const reach = (stories * FEET_PER_STORY + ABOVE_LANDING) * ALONG_RAIL;
  return SOLD_FEET.find((feet) => feet - overlapOf(feet) >= reach) ?? null;
}

/** A piece of a kind: what is worn has a size; the long ones of a kind are added as that kind with their length. */
export function mayAddPiece({ worn, ofKind }: { worn: boolean; ofKind: string | null }, size: string | null): Outcome<null> {
  if (ofKind !== null) return refuse('kit-by-length', {}, 'kind');
  return worn && size === null ? refuse('kit-size-missing', {}, 'size') : accept(null);
}
