// What the season forbids on the day of the visit, offered for later with its own price instead of silently missing.
import { inWords } from '../shared/english.ts';
import { evaluate, type NamedContext } from '../shared/evaluate.ts';
import type { LaterLook } from './deskRules.ts';

export type OfferedLook = { key: string; label: string; reason: string; visitKind: string; cents: number; remindOn: string };

/** The next such month and day after an ISO day. February 29 in a common year is March 1. */
export function nextDay(monthDay: string, after: string): string {
  const year = Number(after.slice(0, 4)) + (monthDay > after.slice(5) ? 0 : 1);
  const common = year % 4 !== 0 || (year % 100 === 0 && year % 400 !== 0);
  return monthDay === '02-29' && common ? `${year}-03-01` : `${year}-${monthDay}`;
}

/** Looks whose rule applies to the house on the day of the visit, or may apply as long as a fact is not known. */
export const laterLooksOf = (looks: readonly LaterLook[], context: NamedContext): OfferedLook[] =>
  looks
    .filter(({ applies }) => evaluate(applies, context) !== 'no')
    .map(({ key, label, reason, applies, visitKind, cents, remindOn }) => ({
      key,
      label,
      reason: `${reason} (${inWords(applies, context.serviceNames)})`,
      visitKind,
      cents,
      remindOn: nextDay(remindOn, context.day),
    }));
