// Since when waiting for a client takes long: so many business days back, as the firm set it.
import { termAt } from '@backsight/domain/callbacks/clocks';
import { addBusinessDays } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { DateTime } from 'luxon';
import { calendarOf } from '../../firm/steps/calendar.ts';
import { localDay } from '../../firm/steps/localDay.ts';
import { datedTerms } from './runClocks.ts';

/** The beginning (ISO, UTC) of the day that lies that many business days before today. */
export async function pausedSince(reader: Reader, now: Date): Promise<string> {
  const { zone, today } = await localDay(reader, now);
  const { amount } = termAt(await datedTerms(reader), '', 'waiting', now.toISOString());
  const day = addBusinessDays(today, -amount, await calendarOf(reader, null, now));
  return DateTime.fromISO(day, { zone }).toUTC().toISO()!;
}
