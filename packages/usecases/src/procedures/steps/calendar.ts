// The working calendar by which inspectors get time to acknowledge: office hours, federal holidays and the firm's own closed days.
import { federalHolidays, type BusinessCalendar, type IsoWeekday, type OpeningHours } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { listClosedDays, listOffices } from '@backsight/store/firm/settings';

type StoredHours = Partial<Record<IsoWeekday, [start: number, end: number] | OpeningHours | null>>;

const hoursOf = (stored: StoredHours, weekday: IsoWeekday): OpeningHours | null => {
  const span = stored[weekday];
  return Array.isArray(span) ? { start: span[0], end: span[1] } : (span ?? null);
};

/** The calendar of the firm's first office around an instant, the next years included. @throws Error when there is no office yet */
export async function workingCalendar(reader: Reader, at: Date): Promise<BusinessCalendar> {
  const [office] = await listOffices(reader);
  if (!office) throw new Error('there is no office yet');
  const stored = office.hours as StoredHours;
  const hours = Object.fromEntries(([1, 2, 3, 4, 5, 6, 7] as const).map((weekday) => [weekday, hoursOf(stored, weekday)])) as BusinessCalendar['hours'];
  const year = at.getUTCFullYear();
  const federal = [year - 1, year, year + 1, year + 2].flatMap(federalHolidays);
  const own = await listClosedDays(reader, `${year - 1}-01-01`);
  return { zone: office.zone, hours, closedDays: [...own, ...federal].map(({ day }) => day) };
}
