// What day it is where the firm is.
import { DateTime } from 'luxon';
import { findFirm } from '@backsight/store/firm';
import type { Reader } from '@backsight/store/database';

/** The firm's zone, its ISO day at the instant, and the day before. */
export async function localDay(reader: Reader, now: Date): Promise<{ zone: string; today: string; yesterday: string }> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const at = DateTime.fromJSDate(now, { zone });
  return { zone, today: at.toFormat('yyyy-MM-dd'), yesterday: at.minus({ days: 1 }).toFormat('yyyy-MM-dd') };
}

/** Id under which the audit trail files what is done to the firm itself, which has no id of its own. */
export const FIRM_THING = '00000000-0000-7000-8000-000000000000';
