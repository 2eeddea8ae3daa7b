// Since when waiting for a client takes long: so many business days back, as the firm set it.
import { termAt } from '@backsight/domain/callbacks/clocks';
import { addBusinessDays, type BusinessCalendar } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { DateTime } from 'luxon';
import { datedTerms } from './runClocks.ts';

type At = { now: Date; today: string; zone: string; calendar: BusinessCalendar };

/** The beginning (ISO, UTC) of the day that lies that many business days before today. */
export async function pausedSince(reader: Reader, { now, today, zone, calendar }: At): Promise<string> {
  const { amount } = termAt(await datedTerms(reader), '', 'waiting', now.toISOString());
  const day = addBusinessDays(today, -amount, calendar);
  return DateTime.fromISO(day, { zone }).toUTC().toISO()!;
}
