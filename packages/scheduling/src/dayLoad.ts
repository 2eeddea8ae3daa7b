// What one day asks of a person: driving, waiting between visits, and time outside the working hours.
import type { Day, Minute } from './time.ts';
import type { Travel } from './travel.ts';
import type { Busy, PersonInput, World } from './world.ts';

export type DayLoad = {
  visits: number;
  /** From the base to the first visit, between visits, and back. */
  driving: Minute;
  /** Between two visits, beside the drive. */
  waiting: Minute;
  /** Before the hours begin or after they end, drives included; on a day without hours all of it. */
  outside: Minute;
};

const goesAlong = ({ personIds, observerIds = [] }: Busy, id: string): boolean => personIds.includes(id) || observerIds.includes(id);

/** The day of a person as `world.busy` has it; all zero without a visit. */
export function dayLoad(world: World, person: PersonInput, day: Day, travel: Travel): DayLoad {
  const visits = world.busy.filter((one) => one.day === day && goesAlong(one, person.id)).sort((a, b) => a.start - b.start);
  const [first, last] = [visits[0], visits.at(-1)];
  if (!first || !last) return { visits: 0, driving: 0, waiting: 0, outside: 0 };
  const out = travel.minutes(person.base, first.place);
  const back = travel.minutes(last.place, person.base);
  const between = visits.slice(1).map((next, at) => {
    const before = visits[at]!;
    const drive = travel.minutes(before.place, next.place);
    return { drive, wait: Math.max(0, next.start - before.end - drive) };
  });
  const shifts = person.shifts.filter((shift) => shift.day === day);
  const [leaves, home] = [first.start - out, last.end + back];
  const opens = Math.min(...shifts.map(({ start }) => start));
  const closes = Math.max(...shifts.map(({ end }) => end));
  return {
    visits: visits.length,
    driving: out + back + between.reduce((sum, { drive }) => sum + drive, 0),
    waiting: between.reduce((sum, { wait }) => sum + wait, 0),
    outside: shifts.length === 0 ? home - leaves : Math.max(0, opens - leaves) + Math.max(0, home - closes),
  };
}
