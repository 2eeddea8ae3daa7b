// What a visit costs besides that starts early, late, at a weekend or on a federal holiday.
import { federalHolidays } from '../shared/calendar.ts';
import type { Truth } from '../shared/applicability.ts';
import { shortUsd } from '../shared/money.ts';
import { DateTime } from 'luxon';
import type { Charge, FeeContext } from './charges.ts';
import type { FeeRule } from './schedule.ts';

type Rule = Extract<FeeRule, { kind: 'outsideHours' }>;

/** '8:00 AM' of a minute of the day. */
export const clockWords = (minute: number): string => {
  const hour = Math.floor(minute / 60) % 24;
  return `${hour % 12 || 12}:${String(minute % 60).padStart(2, '0')} ${hour < 12 ? 'AM' : 'PM'}`;
};

/** Why a visit lies outside the hours of a rule: for its day, else for its start; undefined when it does not, or no start is known. */
function reasonOf(rule: Rule, day: string, minute: number | null): string | undefined {
  const { weekday, year } = DateTime.fromISO(day, { zone: 'utc' });
  const holiday = federalHolidays(year).find((one) => one.day === day);
  if (rule.days.includes('holiday') && holiday) return `on ${holiday.name}`;
  if (rule.days.includes('saturday') && weekday === 6) return 'on a Saturday';
  if (rule.days.includes('sunday') && weekday === 7) return 'on a Sunday';
  if (minute === null) return undefined;
  if (minute < rule.before) return `starts at ${clockWords(minute)}, before ${clockWords(rule.before)}`;
  return minute > rule.after ? `starts at ${clockWords(minute)}, after ${clockWords(rule.after)}` : undefined;
}

/** Counted once. While no start is chosen, only the day itself is charged for, and the rest is said. */
export function outsideHoursCharge(rule: Rule, truth: Truth, { day, startMinute = null }: FeeContext): Charge {
  const reason = reasonOf(rule, day, startMinute);
  if (reason !== undefined && truth === 'yes') return { line: { rule: rule.key, label: rule.label, reason, cents: rule.cents } };
  if (startMinute !== null && reason === undefined) return {};
  if (rule.cents === 0 || (rule.before === 0 && rule.after >= 1440 && reason === undefined)) return {};
  const hours = `a start before ${clockWords(rule.before)} or after ${clockWords(rule.after)}`;
  return { note: `${rule.label} may add ${shortUsd(rule.cents)} for ${reason ?? hours}.` };
}
