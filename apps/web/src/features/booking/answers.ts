// What callers ask, answered from the rules of the firm in words that can be read out.
import { DateTime } from 'luxon';
import type { Firm, WeekHours } from '@backsight/contract/firm';
import type { MoneyRules } from '@backsight/contract/fees/terms';
import type { Terms } from '@backsight/contract/jobs';
import type { PersonFile } from '@backsight/contract/people/file';
import { dayText } from '../../ui/time.ts';

const LICENSE = 'home_inspector';
const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

const later = (day: string, count: number): string => DateTime.fromISO(day, { zone: 'utc' }).plus({ days: count }).toISODate()!;
const days = (count: number): string => `${count} ${count === 1 ? 'day' : 'days'}`;

/** `visitOn`: the day of the start once one is chosen; `paidFirst`: whether the report waits for the fee. */
export function reportWords(dueDays: number, visitOn: string | null, paidFirst: boolean): string {
  const when =
    visitOn !== null
      ? `By ${dayText(later(visitOn, dueDays))}`
      : dueDays === 0
        ? 'On the day of the visit'
        : `Within ${days(dueDays)} of the visit`;
  return `${when}, once the agreement is signed${paidFirst ? ' and the fee is paid' : ''}.`;
}

/** When the fee is due by the terms that are chosen. */
export function payWords(terms: Terms, rules: Pick<MoneyRules, 'depositPercent' | 'closingDays'> | undefined): string {
  switch (terms) {
    case 'due_at_booking':
      return 'The fee is due when the appointment is booked, before the visit.';
    case 'due_at_visit':
      return 'The fee is due on the day of the visit.';
    case 'deposit':
      return `A deposit${rules ? ` of ${rules.depositPercent}%` : ''} is due before the visit and held for the client until then; the rest on its day.`;
    case 'billed_to_closing':
      return `Through the closing${rules ? `, ${days(rules.closingDays)} after the visit at the latest` : ''}, whether or not the sale closes.`;
  }
}

/** The license under which somebody inspects on a day: '(license 1203-106, until Mon, Dec 14, 2026)'. */
export function licenseWords({ licenses }: Pick<PersonFile, 'licenses'>, on: string): string {
  const held = licenses.filter(({ kind, fromDay, untilDay }) => kind === LICENSE && fromDay <= on && on <= untilDay).at(-1);
  return held ? `license ${held.number}, until ${dayText(held.untilDay)}` : 'no license on file for that day';
}

const clock = (minute: number): string => {
  const hour = Math.floor(minute / 60) % 24;
  const rest = minute % 60;
  return `${hour % 12 || 12}${rest ? `:${String(rest).padStart(2, '0')}` : ''} ${hour < 12 ? 'AM' : 'PM'}`;
};

/** 'Mon to Fri 8 AM to 5 PM': days in a row with the same hours are said once. */
export function hoursWords(hours: WeekHours): string {
  const said: { first: number; last: number; words: string }[] = [];
  DAYS.forEach((_, at) => {
    const span = hours[(at + 1) as keyof WeekHours];
    if (!span) return;
    const words = `${clock(span[0])} to ${clock(span[1])}`;
    const before = said.at(-1);
    if (before && before.last === at - 1 && before.words === words) before.last = at;
    else said.push({ first: at, last: at, words });
  });
  return said
    .map(({ first, last, words }) => `${DAYS[first]}${last > first ? `${last > first + 1 ? ' to' : ' and'} ${DAYS[last]}` : ''} ${words}`)
    .join('; ');
}

/** The next days on which the office is closed besides its usual hours. */
export const closedWords = ({ closedDays }: Pick<Firm, 'closedDays'>, from: string): string =>
  closedDays
    .filter(({ day }) => day >= from)
    .slice(0, 3)
    .map(({ day, name }) => `${dayText(day)} (${name})`)
    .join('; ');
