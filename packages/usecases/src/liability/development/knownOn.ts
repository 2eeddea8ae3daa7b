// Figures of the whole firm as they were known at the end of a day.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { figures, type Figure } from '@backsight/store/liability/figures';
import { hiddenFigures } from '@backsight/store/liability/hidden';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../../callbacks/steps/day.ts';

const MEASURES = ['jobs', 'callbacks', 'paid', 'reserved', 'recovered'] as const;

/** `day` as it was in the zone of the firm; today, so far, when absent. `seeOwnerOnly`: whether files for the owner alone are in it. */
export type AsOf = { now: Date; day?: string | undefined; seeOwnerOnly: boolean };
export type Known = { today: string; day: string; rows: Figure[] };

/** Jobs, callbacks and money by month of inspection and month of knowing. A day that has not come is refused. */
export async function knownOn(reader: Reader, { now, day, seeOwnerOnly }: AsOf): Promise<Outcome<Known>> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const today = dayAt(now, zone);
  const on = day ?? today;
  if (on > today) return refuse('in-the-future', { day: on }, 'asOf');
  const asOf = on === today ? undefined : DateTime.fromISO(on, { zone }).endOf('day').toJSDate();
  const rows = await figures(reader, { grouping: 'all', measures: MEASURES, ...(asOf ? { asOf } : {}) });
  const hidden = seeOwnerOnly ? [] : await hiddenFigures(reader, asOf);
  return accept({ today, day: on, rows: [...rows, ...hidden.map((row) => ({ ...row, amount: -row.amount }))] });
}
