// Figures of the whole firm as they were known at the end of a day.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { figures, type Figure } from '@backsight/store/liability/figures';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../../callbacks/steps/day.ts';

const MEASURES = ['jobs', 'callbacks', 'paid', 'reserved', 'recovered'] as const;

/** `day` as it was in the zone of the firm; today, so far, when absent. */
export type AsOf = { now: Date; day?: string | undefined };
export type Known = { today: string; day: string; zone: string; rows: Figure[] };

/** Jobs, callbacks and money by month of inspection and month of knowing. A day that has not come is refused. */
export async function knownOn(reader: Reader, { now, day }: AsOf): Promise<Outcome<Known>> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const today = dayAt(now, zone);
  const on = day ?? today;
  if (on > today) return refuse('in-the-future', { day: on }, 'asOf');
  const asOf = on === today ? {} : { asOf: DateTime.fromISO(on, { zone }).endOf('day').toJSDate() };
  return accept({ today, day: on, zone, rows: await figures(reader, { grouping: 'all', measures: MEASURES, ...asOf }) });
}
