// Rules about the firm: its hours, its zone, authority that is lent.
import { IANAZone } from 'luxon';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** Hours by ISO weekday ('1' = Monday): [opens, closes] in minutes of the local wall clock, or null = closed. */
export type WeekHours = Record<'1' | '2' | '3' | '4' | '5' | '6' | '7', [number, number] | null>;

export const WEEKDAYS = { 1: 'Monday', 2: 'Tuesday', 3: 'Wednesday', 4: 'Thursday', 5: 'Friday', 6: 'Saturday', 7: 'Sunday' } as const;

/** Opens before it closes, on every day that is not closed. */
export function hoursInOrder(hours: WeekHours, field = 'hours'): Outcome<null> {
  for (const [key, name] of Object.entries(WEEKDAYS)) {
    const span = hours[key as keyof WeekHours];
    if (span && span[1] <= span[0]) return refuse('hours-backwards', { day: name }, `${field}.${key}`);
  }
  return accept(null);
}

/** The zone is a name of the IANA time zone database. */
export const zoneKnown = (zone: string): Outcome<null> =>
  IANAZone.isValidZone(zone) ? accept(null) : refuse('zone-unknown', { zone }, 'zone');

/** Authority may be lent by one who holds it, to another person who is still here, for days that are not over. Days are ISO days. */
export function mayLend(
  facts: { lenderId: string; lenderRoles: readonly string[]; borrowerEndedOn: string | null; today: string },
  loan: { borrowerId: string; role: string; fromDay: string; untilDay: string },
): Outcome<null> {
  if (loan.borrowerId === facts.lenderId) return refuse('loan-to-self', {}, 'borrowerId');
  if (!facts.lenderRoles.includes(loan.role)) return refuse('loan-not-held', {}, 'role');
  if (facts.borrowerEndedOn !== null && facts.borrowerEndedOn <= facts.today) return refuse('loan-borrower-left', {}, 'borrowerId');
  if (loan.untilDay < loan.fromDay) return refuse('days-backwards', {}, 'untilDay');
  return loan.untilDay < facts.today ? refuse('loan-past', {}, 'untilDay') : accept(null);
}

/** What ending a loan early leaves: null = nothing, for it never began before today; else its last day, yesterday. */
export const loanEndsOn = (fromDay: string, today: string, yesterday: string): string | null => (fromDay < today ? yesterday : null);
