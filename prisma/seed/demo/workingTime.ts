// Working time of the demo firm: days with other hours, an absence that waits for an answer, education hours, checks of kit, vehicles.
import { DateTime } from 'luxon';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { dayIn, type Tx } from '@backsight/store/database';
import { KIT_CHECKS } from '../starter/visits.ts';
import { ZONE, type DemoCalendar } from './calendar.ts';
import { inspectors, OFFICE_ID, PEOPLE } from './people.ts';

export type WorkingTime = {
  calendar: DemoCalendar;
  at: Date;
  id: () => string;
  kit: readonly { id: string; kind: string }[];
  quiet: readonly Date[];
};

/** Pairs who go out at hours at which the firm does not by itself, in the order in which they are asked. */
export const WORK_AT_QUIET_HOURS = [
  [PEOPLE.amos, PEOPLE.dana],
  [PEOPLE.bea, PEOPLE.freya],
] as const;

const [BEFORE, AFTER, DAY_BEGINS] = [90, 270, 480];

/** Their hours today, around the starts; of a working day its usual morning too, and both pairs, because one may be at a house until late. */
function quietHours({ today, workday }: DemoCalendar, starts: readonly Date[]) {
  const [first, last] = [starts[0], starts.at(-1)];
  if (!first || !last) return [];
  const works = workday(0) === today;
  const minute = (at: Date): number => {
    const { hour, minute: past } = DateTime.fromJSDate(at, { zone: ZONE });
    return hour * 60 + past;
  };
  const begins = Math.max(0, minute(first) - BEFORE);
  const hours = { startMinute: works ? Math.min(DAY_BEGINS, begins) : begins, endMinute: Math.min(1440, minute(last) + AFTER) };
  const people = WORK_AT_QUIET_HOURS.slice(0, works ? 2 : 1).flat();
  return people.map((one) => ({ ...hours, personId: one.id, day: dayIn(today), note: 'for buyers who come from far away' }));
}

/** Everything is dated around today. */
export async function addWorkingTime(tx: Tx, { calendar, at, id, kit, quiet }: WorkingTime): Promise<void> {
  const { db } = tx;
  const { today } = calendar;
  const vehicles = [
    { id: id(), serial: 'Van 1, TC 4471', seats: 5, ladderFeet: 28 },
    { id: id(), serial: 'Van 2, TC 4472', seats: 3, ladderFeet: 24 },
  ];
  await db.kitItem.createMany({
    data: vehicles.map((vehicle) => ({ ...vehicle, officeId: OFFICE_ID, kind: 'vehicle', calibratedUntil: null, note: '' })),
  });
  await db.absence.createMany({
    data: [
      {
        id: id(),
        personId: PEOPLE.bea.id,
        startsAt: calendar.at(calendar.workday(6), 0),
        endsAt: calendar.at(shiftDay(calendar.workday(7), 1), 0),
        reason: 'moving house',
        state: 'asked',
        recordedAt: at,
      },
    ],
  });
  await db.workException.createMany({
    data: [
      ...quietHours(calendar, quiet).map((hours) => ({ ...hours, id: id(), recordedAt: at })),
      {
        id: id(),
        personId: PEOPLE.freya.id,
        day: dayIn(calendar.workday(4)),
        startMinute: 480,
        endMinute: 780,
        note: 'school play',
        recordedAt: at,
      },
      {
        id: id(),
        personId: PEOPLE.amos.id,
        day: dayIn(calendar.workday(8)),
        startMinute: null,
        endMinute: null,
        note: 'day off for a Saturday',
        recordedAt: at,
      },
    ],
  });
  await db.educationEntry.createMany({ data: courses(today, at, id) });
  await db.kitCheck.createMany({ data: checks(kit, today, at, id) });
}

const COURSES = [
  ['Structure', 'Frost, footings and old foundations', 480, 320],
  ['Electrical', 'Ground-fault and arc-fault protection', 360, 210],
  ['Law and ethics', 'The license act and the standards of practice', 240, 140],
  ['Roofing', 'Low slopes, flashings and ice', 480, 75],
  ['Heating', 'Furnaces, venting and combustion air', 480, 260],
  ['Plumbing', 'Water heaters, wells and backflow', 360, 180],
] as const;

/** Most have taken what they need; every third is short. */
function courses(today: string, at: Date, id: () => string) {
  return inspectors.flatMap((one, n) =>
    COURSES.slice(0, n % 3 === 1 ? 3 + (n % 2) : COURSES.length).map(([category, title, minutes, daysAgo]) => ({
      id: id(),
      personId: one.id,
      category,
      title,
      onDay: dayIn(shiftDay(today, -daysAgo - n * 3)),
      minutes,
      recordedBy: one.id,
      recordedAt: at,
    })),
  );
}

/** Each piece was last checked at another time; a few are due. */
function checks(kit: WorkingTime['kit'], today: string, at: Date, id: () => string) {
  return kit.flatMap((item, n) =>
    KIT_CHECKS.filter(({ kind }) => kind === item.kind).map(({ checkKind, everyDays }, m) => ({
      id: id(),
      itemId: item.id,
      checkKind,
      onDay: dayIn(shiftDay(today, -((n * 11 + m * 5) % (everyDays + 3)))),
      passed: true,
      note: '',
      byId: PEOPLE.ruth.id,
      recordedAt: at,
    })),
  );
}
