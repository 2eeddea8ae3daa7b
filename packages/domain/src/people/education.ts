// Continuing education: the need of a rule pack, the period that a day lies in, and what is still missing.
import { shiftDay } from '../shared/calendar.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** Hours needed in each period; it ends the day before the renewal day, in the years named. `supervised`: inspections under supervision that a trainee needs. */
export type EducationRule = {
  hours: number;
  everyYears: number;
  renewal: { month: number; day: number; years: 'even' | 'odd' | 'every' };
  supervised: number | null;
  sources: readonly string[];
};

/** Days before its end at which it is told that something lapses. */
export const STAGES = [180, 90, 30] as const;
export type Stage = (typeof STAGES)[number];

const two = (n: number): string => String(n).padStart(2, '0');
const DAY_MS = 86_400_000;

/** The narrowest stage that the days from `today` to `on` lie in; null while there is more time. What has lapsed is in the last. */
export function stageOf(today: string, on: string): Stage | null {
  const days = Math.round((Date.parse(`${on}T00:00:00Z`) - Date.parse(`${today}T00:00:00Z`)) / DAY_MS);
  return STAGES.findLast((stage) => days <= stage) ?? null;
}

const renews = (rule: EducationRule, year: number): boolean =>
  rule.renewal.years === 'every' || (year % 2 === 0) === (rule.renewal.years === 'even');
const renewalIn = ({ renewal }: EducationRule, year: number): string => `${year}-${two(renewal.month)}-${two(renewal.day)}`;

/** First and last day of the period that a day lies in. */
export function educationPeriod(rule: EducationRule, day: string): { fromDay: string; untilDay: string } {
  let year = Number(day.slice(0, 4));
  while (!renews(rule, year) || renewalIn(rule, year) <= day) year += 1;
  return { fromDay: renewalIn(rule, year - rule.everyYears), untilDay: shiftDay(renewalIn(rule, year), -1) };
}

export type Standing = {
  fromDay: string;
  untilDay: string;
  needMinutes: number;
  doneMinutes: number;
  missingMinutes: number;
  stage: Stage | null;
};

/** Where somebody stands today: minutes taken in the period, and what is missing. The stage is set only while hours are missing. */
export function educationStanding(rule: EducationRule, taken: readonly { onDay: string; minutes: number }[], today: string): Standing {
  const period = educationPeriod(rule, today);
  const doneMinutes = taken
    .filter(({ onDay }) => period.fromDay <= onDay && onDay <= period.untilDay)
    .reduce((sum, { minutes }) => sum + minutes, 0);
  const needMinutes = Math.round(rule.hours * 60);
  const missingMinutes = Math.max(0, needMinutes - doneMinutes);
  return { ...period, needMinutes, doneMinutes, missingMinutes, stage: missingMinutes > 0 ? stageOf(today, period.untilDay) : null };
}

/** Hours that were taken, not such as are still to come. */
export function educationFits(entry: { onDay: string; minutes: number }, today: string): Outcome<null> {
  if (entry.minutes < 1 || entry.minutes > 14_400) return refuse('education-minutes', {}, 'minutes');
  return entry.onDay > today ? refuse('education-in-future', {}, 'onDay') : accept(null);
}

/** '40 h', '3 h 30 min'. */
export const sayHours = (minutes: number): string => `${Math.floor(minutes / 60)} h${minutes % 60 === 0 ? '' : ` ${minutes % 60} min`}`;
