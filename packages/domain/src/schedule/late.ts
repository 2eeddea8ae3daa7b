// A pair runs late: which of the visits behind can no longer begin as booked, and when they can.
export type LatePlace = { lat: number; lon: number };
export type LateVisit = { id: string; startsAt: Date; endsAt: Date; crew: readonly string[]; place: LatePlace; underWay: boolean };
export type Expected = { id: string; expectedAt: Date; lateMinutes: number };

const MINUTE = 60_000;
const later = (at: Date, minutes: number): Date => new Date(at.getTime() + minutes * MINUTE);

/**
 * `late` ends, or begins and ends, `minutes` later than booked. `behind`: the other visits of the day. A visit begins when everybody of its
 * crew can be there; it then takes as long as booked, so that lateness is handed on, also to a partner who was not late himself.
 * `driving` is in minutes from place to place. The late visit itself is named first unless it is under way.
 */
export function expectedStarts(
  late: LateVisit,
  minutes: number,
  behind: readonly LateVisit[],
  driving: (from: LatePlace, to: LatePlace) => number,
): Expected[] {
  const free = new Map<string, { at: Date; place: LatePlace }>();
  const leave = (visit: LateVisit, by: number) => {
    for (const person of visit.crew) free.set(person, { at: later(visit.endsAt, by), place: visit.place });
  };
  const own = late.underWay ? [] : [{ id: late.id, expectedAt: later(late.startsAt, minutes), lateMinutes: minutes }];
  leave(late, minutes);
  const found: Expected[] = [];
  const inOrder = behind
    .filter(({ id, startsAt }) => id !== late.id && startsAt >= late.startsAt)
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime());
  for (const visit of inOrder) {
    const arrivals = visit.crew.flatMap((person) => {
      const from = free.get(person);
      return from ? [later(from.at, driving(from.place, visit.place)).getTime()] : [];
    });
    if (arrivals.length === 0) continue;
    const by = Math.ceil((Math.max(...arrivals, visit.startsAt.getTime()) - visit.startsAt.getTime()) / MINUTE);
    if (by > 0) found.push({ id: visit.id, expectedAt: later(visit.startsAt, by), lateMinutes: by });
    leave(visit, by);
  }
  return [...own, ...found];
}
