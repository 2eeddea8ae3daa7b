// Who is inside a crawl space or attic or on a roof, and until when they said they would be back.
import type { EnteredPlace, KnownAct } from './act.ts';
import { inOrder } from './inOrder.ts';

export type Inside = { id: string; person: string; place: EnteredPlace; since: string; backBy: string };

/** Everybody who went in and has not come out. */
export function insideNow(acts: readonly KnownAct[]): Inside[] {
  const out = new Set(acts.flatMap(({ act }) => (act.do === 'came_out' ? [act.of] : [])));
  return inOrder(acts).flatMap(({ id, act, by, at }) =>
    act.do === 'went_in' && !out.has(id) ? [{ id, person: by, place: act.place, since: at, backBy: act.backBy }] : [],
  );
}

/** Minutes past the return time after which the office is alerted too; the partner is at once. */
export const OFFICE_AFTER_MINUTES = 10;

/** Who has to be alerted at `now` (instants as ISO text or milliseconds). */
export const overdueFor = (backBy: string, now: number): 'nobody' | 'partner' | 'office' => {
  const late = now - Date.parse(backBy);
  if (late < 0) return 'nobody';
  return late < OFFICE_AFTER_MINUTES * 60_000 ? 'partner' : 'office';
};
