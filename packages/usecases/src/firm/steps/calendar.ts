// The business calendar of an office: its hours, the federal holidays and the firm's own closed days.
import { openingHours } from '@backsight/domain/firm/stored';
import { federalHolidays, type BusinessCalendar } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { listClosedDays, listOffices } from '@backsight/store/firm/settings';

/** The calendar of an office, of the first when null, around an instant: two years back, two ahead. @throws Error when there is no such office */
export async function calendarOf(reader: Reader, officeId: string | null, at: Date): Promise<BusinessCalendar> {
  const office = (await listOffices(reader)).find(({ id }) => officeId === null || id === officeId);
  if (!office) throw new Error('there is no such office');
  const year = at.getUTCFullYear();
  const own = await listClosedDays(reader, `${year - 2}-01-01`);
  const federal = [year - 2, year - 1, year, year + 1, year + 2].filter((y) => y >= 2021).flatMap(federalHolidays);
  return { zone: office.zone, hours: openingHours(office.hours), closedDays: [...own, ...federal].map(({ day }) => day) };
}
