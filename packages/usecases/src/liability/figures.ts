// Keeps the sums that the liability pages read: made anew every night, so that whatever was corrected in between is in them.
import { DateTime } from 'luxon';
import { findFirm } from '@backsight/store/firm';
import { figuresUntil, rebuildJobsAndCallbacks, rebuildSteps } from '@backsight/store/liability/figures';
import type { Database } from '@backsight/store/database';
import { rebuildOwner } from './owner/rebuild.ts';

const NIGHT_HOUR = 3;
const LONGEST_SECONDS = 1800;

/**
 * Makes the sums of everything recorded before today. Steps are summed anew for the visits of this month and the two before, where
 * records are still written and corrected, and on the first day of a month (or with `whole`) for all.
 */
export async function rebuildFigures(services: { database: Database; clock: () => Date }, whole = false): Promise<void> {
  const zone = (await findFirm(services.database.read))?.zone ?? 'UTC';
  const today = DateTime.fromJSDate(services.clock(), { zone }).startOf('day');
  const first = whole || today.day === 1 || (await figuresUntil(services.database.read)) === null;
  await services.database.transaction(async (tx) => {
    await rebuildJobsAndCallbacks(tx, today.toJSDate());
    await rebuildOwner(tx, today.toJSDate(), today.minus({ days: 1 }).toISODate()!);
    await rebuildSteps(tx, first ? null : today.startOf('month').minus({ months: 2 }).toJSDate(), today.toJSDate());
  }, LONGEST_SECONDS);
}

/** Makes them once a night, after three; at once where they were never made. */
export async function rebuildFiguresAtNight(services: { database: Database; clock: () => Date }): Promise<void> {
  const until = await figuresUntil(services.database.read);
  const zone = (await findFirm(services.database.read))?.zone;
  if (!zone) return;
  const now = DateTime.fromJSDate(services.clock(), { zone });
  const due = until === null || (now.hour >= NIGHT_HOUR && until < now.startOf('day').toJSDate());
  if (due) await rebuildFigures(services);
}
