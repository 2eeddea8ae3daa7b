// Free time of one person on one day: the gaps between commitments in which a visit could lie.
import type { Minute } from './time.ts';
import type { Place, Travel } from './travel.ts';
import type { PersonInput, Shift } from './world.ts';

/** Something that occupies a person: a visit, or time away at the base. */
export type Commitment = { start: Minute; end: Minute; place: Place };

/**
 * A stretch free of commitments within one shift. The person is at `prev` from `from` on and must be at `next` by
 * `until`; a visit must lie within `opens`..`closes`. `home` tells that `next` is the base at the end of the day, where
 * `until` includes the overtime allowed. `direct` is the drive prev -> next that happens anyway.
 */
export type Gap = { from: Minute; until: Minute; prev: Place; next: Place; opens: Minute; closes: Minute; home: boolean; direct: Minute; overtimeAnyway: Minute };

const byTime = (a: Commitment, b: Commitment): number => a.start - b.start || a.end - b.end;

/** Where the person comes from and goes to around each stretch of the day that no commitment covers. */
function stretches(commitments: readonly Commitment[]): { before: Commitment | null; after: Commitment | null }[] {
  const list: { before: Commitment | null; after: Commitment | null }[] = [];
  let before: Commitment | null = null;
  for (const after of [...commitments].sort(byTime)) {
    if (before === null || after.start > before.end) list.push({ before, after });
    if (before === null || after.end >= before.end) before = after;
  }
  list.push({ before, after: null });
  return list;
}

/** Where and when the person can set out in this shift: from what he did before in it, else from the base. */
function setOut(shift: Shift, base: Place, before: Commitment | null, travel: Travel): { place: Place; at: Minute } {
  if (before === null) return { place: base, at: shift.start };
  if (before.end > shift.start) return { place: before.place, at: before.end };
  return { place: base, at: Math.max(shift.start, before.end + travel.minutes(before.place, base)) };
}

/** Where and by when he must arrive in this shift: at what he does next in it, else back at the base. */
function arrive(shift: Shift, base: Place, after: Commitment | null, overtimeLimit: Minute, travel: Travel): { place: Place; by: Minute; home: boolean } {
  const latest = shift.end + overtimeLimit;
  if (after === null) return { place: base, by: latest, home: true };
  if (after.start < shift.end) return { place: after.place, by: after.start, home: false };
  return { place: base, by: Math.min(latest, after.start - travel.minutes(base, after.place)), home: true };
}

function gapIn(shift: Shift, base: Place, around: { before: Commitment | null; after: Commitment | null }, overtimeLimit: Minute, travel: Travel): Gap | null {
  const { place: prev, at: from } = setOut(shift, base, around.before, travel);
  const { place: next, by: until, home } = arrive(shift, base, around.after, overtimeLimit, travel);
  if (Math.min(until, shift.end) <= from) return null;
  const direct = travel.minutes(prev, next);
  const overtimeAnyway = home ? Math.max(0, from + direct - shift.end) : 0;
  return { from, until, prev, next, opens: shift.start, closes: shift.end, home, direct, overtimeAnyway };
}

/**
 * All gaps of a person's shifts on one day, in time order. Every shift begins and ends at the base, and the driving lies
 * within it: what was done in an earlier shift of the day does not shorten the way.
 */
export function freeGaps(shifts: readonly Shift[], base: PersonInput['base'], commitments: readonly Commitment[], overtimeLimit: Minute, travel: Travel): Gap[] {
  const around = stretches(commitments);
  return shifts.flatMap((shift) => around.map((one) => gapIn(shift, base, one, overtimeLimit, travel)).filter((gap) => gap !== null));
}
