// When the marks of a drive make sense: setting out to a visit and arriving at its door.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export type MarkKind = 'set_out' | 'arrived';
/** The marks that count of one person on one visit. */
export type DriveTimes = { setOut: Date | null; arrived: Date | null };

const CLOCKS_DIFFER_MS = 2 * 60_000;
const NEAR_MS = 12 * 3_600_000;
const OPEN = ['booked', 'on_site', 'done'];

/** Refuses times to come, times far from the visit, and arriving before setting out; a correction is one more mark. */
export function mayMark(
  visit: { state: string; startsAt: Date; times: DriveTimes },
  mark: { kind: MarkKind; at: Date },
  now: Date,
): Outcome<null> {
  if (!OPEN.includes(visit.state)) return refuse('visit-is', { state: visit.state.replaceAll('_', ' ') });
  if (mark.at.getTime() > now.getTime() + CLOCKS_DIFFER_MS) return refuse('drive-ahead', {}, 'at');
  if (Math.abs(mark.at.getTime() - visit.startsAt.getTime()) > NEAR_MS) return refuse('drive-of-another-day', {}, 'at');
  const setOut = mark.kind === 'set_out' ? mark.at : visit.times.setOut;
  const arrived = mark.kind === 'arrived' ? mark.at : visit.times.arrived;
  return setOut && arrived && arrived < setOut ? refuse('drive-backwards', {}, 'at') : accept(null);
}
