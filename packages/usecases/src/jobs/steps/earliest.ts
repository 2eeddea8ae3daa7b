// A visit that waits for another one, as the pick-up of a device does, begins no sooner than its kind says.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { earliestOf } from '@backsight/store/sitework/testItems';
import type { Work } from '../../run.ts';

/** Refuses `pickup-before` with the earliest instant in the words of the zone; the database refuses the same. */
export async function notTooEarly(
  work: Work,
  visit: { jobId: string; kind: string; startsAt: string; zone: string },
): Promise<Outcome<null>> {
  const from = await earliestOf(work.tx, visit.jobId, visit.kind);
  if (from === null || new Date(visit.startsAt) >= from) return accept(null);
  const earliest = DateTime.fromJSDate(from, { zone: visit.zone }).setLocale('en-US').toFormat('cccc, LLLL d, h:mm a');
  return refuse('pickup-before', { earliest }, 'start.startsAt');
}
