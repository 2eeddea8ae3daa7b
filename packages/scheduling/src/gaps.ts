// Free time of one person on one day: the gaps between commitments in which a visit could lie.
import type { Minute } from './time.ts';
import type { Place, Travel } from './travel.ts';
import type { Shift } from './world.ts';

/** Something that occupies a person: a visit, or time away at the base. */
export type Commitment = { start: Minute; end: Minute; place: Place };

/** A stretch free of commitments within one shift. The person is at `prev` from `from` on and must be at `next` by `until`. */
export type Gap = {
  from: Minute;
  /** Includes the overtime allowed when `toBase`. */
  until: Minute;
  prev: Place;
  next: Place;
  /** `prev` is the base at the beginning of the shift, `next` the base at its end. */
  fromBase: boolean;
  toBase: boolean;
  /** End of the shift: a visit must not end later. */
  closes: Minute;
  /** The drive prev -> next that happens anyway, and the overtime that it causes when `toBase`. */
  direct: Minute;
  overtimeAnyway: Minute;
};

const byTime = (a: Commitment, b: Commitment): number => a.start - b.start || a.end - b.end;

/** A stretch of the day that no commitment covers, between two of them. */
type Stretch = { before: Commitment | null; after: Commitment | null };

function stretches(commitments: readonly Commitment[]): Stretch[] {
  const list: Stretch[] = [];
  let before: Commitment | null = null;
  for (const after of [...commitments].sort(byTime)) {
    if (before === null || after.start > before.end) list.push({ before, after });
    if (before === null || after.end >= before.end) before = after;
  }
  list.push({ before, after: null });
  return list;
}

/** Where and when the person can set out in this shift: from what he did before in it, else from the base. */
function setOut(shift: Shift, base: Place, before: Commitment | null, travel: Travel): { place: Place; at: Minute; fromBase: boolean } {
  if (before === null) return { place: base, at: shift.start, fromBase: true };
  if (before.end > shift.start) return { place: before.place, at: before.end, fromBase: false };
  return { place: base, at: Math.max(shift.start, before.end + travel.minutes(before.place, base)), fromBase: true };
}

/** Where and by when he must arrive in this shift: at what he does next in it, else back at the base. */
function arrive(
  shift: Shift,
  base: Place,
  after: Commitment | null,
  overtimeLimit: Minute,
  travel: Travel,
): { place: Place; by: Minute; toBase: boolean } {
  const latest = shift.end + overtimeLimit;
  if (after === null) return { place: base, by: latest, toBase: true };
  if (after.start < shift.end) return { place: after.place, by: after.start, toBase: false };
  return { place: base, by: Math.min(latest, after.start - travel.minutes(base, after.place)), toBase: true };
}

function gapIn(shift: Shift, base: Place, { before, after }: Stretch, overtimeLimit: Minute, travel: Travel): Gap | null {
  const { place: prev, at: from, fromBase } = setOut(shift, base, before, travel);
  const { place: next, by: until, toBase } = arrive(shift, base, after, overtimeLimit, travel);
  if (Math.min(until, shift.end) <= from) return null;
  const direct = travel.minutes(prev, next);
  return { from, until, prev, next, fromBase, toBase, closes: shift.end, direct, overtimeAnyway: Math.max(0, from + direct - shift.end) };
}

/**
 * All gaps of a person's shifts on one day, in time order. Every shift begins and ends at the base, and the driving lies
 * within it: what was done in an earlier shift of the day does not shorten the way.
 */
export function freeGaps(
  shifts: readonly Shift[],
  base: Place,
  commitments: readonly Commitment[],
  overtimeLimit: Minute,
  travel: Travel,
): Gap[] {
  const around = stretches(commitments);
  return shifts.flatMap((shift) => around.map((one) => gapIn(shift, base, one, overtimeLimit, travel)).filter((gap) => gap !== null));
}
