// Writing followed day by day from the raw data: with the visit placed, no report may be later than without it.
import { estimatedTravel } from '@backsight/scheduling/travel';
import type { Busy, PersonInput, StartQuery, World } from '@backsight/scheduling/world';

const drive = estimatedTravel.minutes;

type Account = { works: boolean; free: number; tail: number; own: number };

/** Working minutes of one day that nothing else takes, all of them and those after the last visit. */
function account(p: PersonInput, busy: readonly Busy[], day: string): Account {
  const visits = busy.filter((one) => one.day === day && (one.personIds.includes(p.id) || one.observerIds?.includes(p.id)));
  const away = p.off.filter((one) => one.day === day);
  const events = [
    ...visits.map((v) => ({ s: v.start, e: v.end, at: v.place })),
    ...away.map((o) => ({ s: o.start, e: o.end, at: p.base })),
  ];
  events.sort((a, b) => a.s - b.s);
  const shifts = p.shifts.filter((one) => one.day === day);
  const last = Math.max(-1, ...visits.map((one) => one.end));
  const pieces = shifts.flatMap((shift) => {
    const inside = events.filter((one) => one.e > shift.start && one.s < shift.end);
    const earlier = events.filter((one) => one.e <= shift.start).map((one) => one.e + drive(one.at, p.base));
    const later = events.filter((one) => one.s >= shift.end).map((one) => one.s - drive(p.base, one.at));
    let here = { t: Math.max(shift.start, ...earlier), at: p.base };
    const list: { t: number; free: number }[] = [];
    for (const one of inside) {
      list.push({ t: here.t, free: one.s - here.t - drive(here.at, one.at) });
      if (one.e > here.t) here = { t: one.e, at: one.at };
    }
    list.push({ t: here.t, free: Math.min(shift.end, ...later) - here.t - drive(here.at, p.base) });
    return list.filter(({ free }) => free > 0);
  });
  const covered = (minute: number) => away.some((one) => one.start <= minute && minute < one.end);
  const someMinute = ({ start, end }: { start: number; end: number }) => {
    for (let minute = start; minute < end; minute += 1) if (!covered(minute)) return true;
    return false;
  };
  return {
    works: shifts.some(someMinute),
    free: pieces.reduce((sum, one) => sum + one.free, 0),
    tail: pieces.filter(({ t }) => t >= last).reduce((sum, one) => sum + one.free, 0),
    own: visits.filter((one) => one.personIds[0] === p.id).reduce((sum, one) => sum + (one.reportMinutes ?? 0), 0),
  };
}

type Known = { days: Map<string, Account>; late: number[] };
const known = new WeakMap<World, Map<string, Known>>();

/** Minutes overdue at the end of each working day, and what is left when the days known are over. */
function lateness(days: ReadonlyMap<string, Account>): number[] {
  let waiting = 0;
  const late = [...days].map(([, { works, free, tail, own }]) => {
    if (!works) {
      waiting += own;
      return 0;
    }
    const overdue = Math.max(0, waiting - free);
    const writable = Math.min(tail, Math.max(0, free - waiting));
    waiting = overdue + Math.max(0, own - writable);
    return overdue;
  });
  return [...late, waiting];
}

/** The days of a person as they are booked, and how late his reports are then; looked up once. */
function asBooked(w: World, p: PersonInput): Known {
  const byPerson = known.get(w) ?? new Map<string, Known>();
  known.set(w, byPerson);
  const found = byPerson.get(p.id);
  if (found) return found;
  const named = new Set(p.shifts.map(({ day }) => day));
  for (const one of w.busy) if (one.personIds.includes(p.id) || one.observerIds?.includes(p.id)) named.add(one.day);
  const days = new Map([...named].sort().map((day) => [day, account(p, w.busy, day)]));
  const fresh = { days, late: lateness(days) };
  byPerson.set(p.id, fresh);
  return fresh;
}

type Placed = { crew: PersonInput[]; first: PersonInput; day: string; start: number };

/** Whether nobody's writing gets later when this crew goes then and `first` writes. */
export function writesInTime(w: World, q: StartQuery, { crew, first, day, start }: Placed): boolean {
  const report = q.reportMinutes ?? 0;
  if (report === 0 && !w.busy.some((one) => (one.reportMinutes ?? 0) > 0)) return true;
  const personIds = [first, ...crew.filter((p) => p !== first)].map((p) => p.id);
  const visit: Busy = {
    id: 'placed',
    personIds,
    day,
    start,
    end: start + q.durationMinutes,
    place: q.place,
    kit: [],
    reportMinutes: report,
  };
  return crew.every((p) => {
    const { days, late } = asBooked(w, p);
    const placed = new Map(days).set(day, account(p, [...w.busy, visit], day));
    return lateness(placed).every((minutes, at) => minutes <= late[at]!);
  });
}
