// The business calendar of an office: its hours, the federal holidays and the firm's own closed days.
import { federalHolidays, type BusinessCalendar } from '@backsight/domain/shared/calendar';
import { listClosedDays, listOffices } from '@backsight/store/firm/settings';
import type { Reader } from '@backsight/store/database';

/** As an office keeps them: opening and closing minute by ISO weekday, null = closed. */
type StoredHours = Record<string, readonly [number, number] | null>;

const hoursOf = (stored: StoredHours): BusinessCalendar['hours'] =>
  Object.fromEntries(Object.entries(stored).map(([weekday, span]) => [weekday, span === null ? null : { start: span[0], end: span[1] }])) as BusinessCalendar['hours'];

/** The calendar around an instant: two years back, two ahead. @throws Error when there is no such office */
export async function calendarOf(reader: Reader, officeId: string, at: Date): Promise<BusinessCalendar> {
  const office = (await listOffices(reader)).find(({ id }) => id === officeId);
  if (!office) throw new Error('a job without its office');
  const year = at.getUTCFullYear();
  const own = await listClosedDays(reader, `${year - 2}-01-01`);
  const federal = [year - 2, year - 1, year, year + 1, year + 2].filter((y) => y >= 2021).flatMap(federalHolidays);
  return { zone: office.zone, hours: hoursOf(office.hours as StoredHours), closedDays: [...own, ...federal].map(({ day }) => day) };
}
