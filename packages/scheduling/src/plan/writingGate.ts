// Writing of reports in plans: which days leave their person no time for what must be written, as booking would see it.
import type { Travel } from '../travel.ts';
import { flowOf, freeIn, roomOf, writingDays } from '../writing.ts';
import { calendarAround } from './away.ts';
import { dayAndMinute, dayIndex } from './days.ts';
import type { Member } from './members.ts';
import type { PlanInput, PlanPerson } from './model.ts';

/** What a route leaves of a stretch: working time before and between the visits, and after the last one. */
export type Left = { between: number; after: number };

type Room = {
  works: boolean;
  carried: number;
  /** Most that may be passed on to the days after. */
  most: number;
  late: number;
  /** Free time of the day's other stretches: all of them, and those after this one. */
  others: number;
  later: number;
  /** Own reports may be written in it. */
  own: boolean;
};

const EVERYTHING: Room = { works: true, carried: 0, most: Infinity, late: 0, others: 0, later: 0, own: true };

/**
 * For somebody who is on the road in one stretch of one day this is the rule of booking. Where a day has several stretches or
 * the plan several days, the others are taken to be free, which forbids too little; of the people in `strict` they are taken
 * to be full, and their own reports are written in and after the last stretch alone, which forbids too much.
 */
export class WritingGate {
  private readonly rooms: Room[];

  private constructor(rooms: Room[]) {
    this.rooms = rooms;
  }

  /** Null when nothing is to be written. */
  static of(
    input: PlanInput,
    people: readonly PlanPerson[],
    members: readonly Member[],
    travel: Travel,
    strict: ReadonlySet<string>,
  ): WritingGate | null {
    const world = { ...input, busy: calendarAround(input) };
    const writes = [...input.visits, ...world.busy].some(({ reportMinutes = 0 }) => reportMinutes > 0);
    if (!writes) return null;
    const rooms = people.map((person) => roomOf(flowOf(writingDays(world, person, travel))));
    const last = (input.span ?? 1) - 1;
    return new WritingGate(
      members.map(({ person, from, closes, direct }) => {
        const index = dayIndex(from);
        const { day, minute } = dayAndMinute(input.day, from);
        const room = rooms[person]!.find((one) => one.day === day);
        if (!room) return EVERYTHING;
        const { works, carried, most, free, passed, gaps, late } = room;
        const isStrict = strict.has(people[person]!.id);
        const others = isStrict ? 0 : Math.max(0, free - Math.max(0, closes - from - direct));
        const later = isStrict ? 0 : gaps.filter((gap) => gap.from > minute).reduce((sum, gap) => sum + freeIn(gap), 0);
        const isLast = !members.some((other) => other.person === person && other.from > from && dayIndex(other.from) === index);
        const own = isLast || !isStrict;
        return { works, carried, most: isStrict && (index < last || !own) ? passed : most, late, others, later, own };
      }),
    );
  }

  /** Whether the member has time to write `report` minutes of his own and what is carried in, in the day that is left to him. */
  fits(member: number, { between, after }: Left, report: number): boolean {
    const { works, carried, most, late, others, later, own } = this.rooms[member]!;
    const tail = own ? Math.max(0, after) + later : 0;
    const free = between + Math.max(0, after) + others;
    if (works && Math.max(0, carried - free) > late) return false;
    const passed = works ? Math.max(0, report - Math.min(tail, free - carried)) : carried + report;
    return passed <= most;
  }
}
