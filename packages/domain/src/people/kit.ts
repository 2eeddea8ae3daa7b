// Checks of kit with a date.
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
