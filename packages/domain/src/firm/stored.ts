// Shape of office hours in the database: by ISO weekday, [opens, closes] in minutes of the local wall clock, or null = closed.
import { z } from 'zod';
import type { BusinessCalendar } from '../shared/calendar.ts';
import type { WeekHours } from './rules.ts';

const minute = z.int().min(0).max(1440);
const span = z.tuple([minute, minute]).nullable();

export const weekHoursSchema = z.strictObject({ 1: span, 2: span, 3: span, 4: span, 5: span, 6: span, 7: span });

/** Stored hours, checked. @throws ZodError when a row holds anything else: that is a mistake of the program, never of a person */
export const readWeekHours = (stored: unknown): WeekHours => weekHoursSchema.parse(stored);

/** The same hours as a business calendar has them. */
export function openingHours(stored: unknown): BusinessCalendar['hours'] {
  const hours = readWeekHours(stored);
  const of = (weekday: keyof WeekHours) => (hours[weekday] ? { start: hours[weekday][0], end: hours[weekday][1] } : null);
  return { 1: of('1'), 2: of('2'), 3: of('3'), 4: of('4'), 5: of('5'), 6: of('6'), 7: of('7') };
}
