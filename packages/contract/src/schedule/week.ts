// The week of the people: what each has on each day, the drives between, and what will stand in the way.
import { z } from 'zod';
import { day, id, instant } from '../route.ts';

const text = z.string();
const minuteOfDay = z.int().min(0).max(1440);

const visit = z.strictObject({
  id,
  jobId: id,
  jobNumber: z.int(),
  kindName: text,
  state: text,
  startsAt: instant,
  endsAt: instant,
  expectedAt: instant.nullable(),
  address: text,
  town: text,
  place: z.enum(['first', 'second', 'observer']),
  withIds: z.array(id),
  first: id,
  second: id.nullable(),
  /** As If-Match names it when the visit is moved. */
  version: z.int(),
  holdEndsAt: instant.nullable(),
  /** The window in which the client was promised the start; without one the very start is. */
  promisedFrom: instant.nullable(),
  promisedUntil: instant.nullable(),
  /** Kept from plans. */
  locked: z.boolean(),
  openNeeds: z.int(),
  /** Minutes of writing the report after the visit, for the one who goes first; 0 for the others. */
  writingMinutes: z.int(),
});
/** A drive from the base (null) or a visit to the next visit or back to the base (null). */
const leg = z.strictObject({ from: id.nullable(), to: id.nullable(), minutes: z.int(), source: z.enum(['estimate', 'engine', 'manual']) });
const weekDay = z.strictObject({
  day,
  hours: z.array(z.strictObject({ start: z.int(), end: z.int() })),
  /** Other hours than usual on this day; without minutes a day off. */
  exception: z.strictObject({ start: minuteOfDay.nullable(), end: minuteOfDay.nullable() }).nullable(),
  visits: z.array(visit),
  legs: z.array(leg),
  /** Minutes of reports that are planned to be written on this day, whatever day their visits are on, and those overdue at its end. */
  writing: z.strictObject({ minutes: z.int(), late: z.int() }),
  /** What is only asked for blocks nothing yet, and shows only to the person and to those who decide. */
  absent: z.array(z.strictObject({ startsAt: instant, endsAt: instant, state: z.enum(['asked', 'approved']) })),
});
export const week = z.strictObject({
  from: day,
  zone: text,
  /** A road service is set up: an estimate among the drives is one that it has not answered yet. */
  roadService: z.boolean(),
  days: z.array(day),
  people: z.array(
    z.strictObject({
      id,
      name: text,
      trainee: z.boolean(),
      mayLead: z.boolean(),
      /** License and qualifications whose last day is within 30 days after the week, or behind. */
      lapses: z.array(z.strictObject({ what: text, lastDay: day })),
      missing: z.array(z.strictObject({ revision: text, afterDay: day })),
      days: z.array(weekDay),
    }),
  ),
});
export type Week = z.output<typeof week>;
