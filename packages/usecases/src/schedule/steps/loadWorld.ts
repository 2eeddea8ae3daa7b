// The world of the slot search, as the database has it now.
import { daysFrom, instantOf, wallTime, weekdayOf } from '@backsight/domain/schedule/wallClock';
import { wornPool } from '@backsight/scheduling/kit';
import { addDays, daysBetween } from '@backsight/scheduling/time';
import type { Busy, KitPool, PersonInput, Shift, World } from '@backsight/scheduling/world';
import type { Reader } from '@backsight/store/database';
import { findWorld, WRITING_REACH_DAYS, type WorldRows } from '@backsight/store/schedule/world';
import { traineeRuleOf } from '@backsight/domain/schedule/stored';

type PersonRows = WorldRows['people'][number];
const LICENSE = 'home_inspector';
const PLENTY = 1_000_000;

/** Start of a local day as an instant; every day has a midnight or a first minute after it. */
export const startOfDay = (day: string, zone: string): Date => {
  const midnight = instantOf(day, 0, zone);
  if (midnight.ok) return midnight.value;
  const one = instantOf(day, 60, zone);
  if (!one.ok) throw new Error(`the day ${day} has no beginning`);
  return one.value;
};

/** ISO day and ISO weekday. */
type DayInput = { day: string; weekday: number };

const worksOn = (person: PersonRows, day: string): boolean => person.startedOn <= day && (person.endedOn === null || day <= person.endedOn);

/** Usual hours on days when the office is open; a day with other hours counts in their place, also while the office is closed. */
const shiftsOf = (person: PersonRows, days: readonly DayInput[], closedDays: readonly string[]): Shift[] =>
  days
    .filter(({ day }) => worksOn(person, day))
    .flatMap(({ day, weekday }) => {
      const other = person.exceptions.find((one) => one.day === day);
      if (other) return other.start === null || other.end === null ? [] : [{ day, start: other.start, end: other.end }];
      if (closedDays.includes(day)) return [];
      return person.patterns
        .filter((p) => p.weekday === weekday && p.from <= day && (p.until === null || day < p.until))
        .map(({ start, end }) => ({ day, start, end }));
    });

/** Licenses that follow each other without a gap count as one; of several runs, the one that holds on or first after `from`. */
function licensedOf(person: PersonRows, from: string): Pick<PersonInput, 'licensedFrom' | 'licensedUntil'> {
  const runs: { from: string; until: string }[] = [];
  for (const one of person.licenses.filter(({ kind }) => kind === LICENSE)) {
    const last = runs.at(-1);
    if (last && one.from <= addDays(last.until, 1)) last.until = one.until > last.until ? one.until : last.until;
    else runs.push({ from: one.from, until: one.until });
  }
  const run = runs.find(({ until }) => until >= from) ?? runs.at(-1);
  return run ? { licensedFrom: run.from, licensedUntil: run.until } : { licensedUntil: null };
}

const heldOn =
  (from: string) =>
  (one: { from: string }): boolean =>
    one.from <= from;

function offOf(id: string, absences: WorldRows['absences'], days: readonly DayInput[]): PersonInput['off'] {
  return absences
    .filter((one) => one.personId === id)
    .flatMap((one) =>
      days
        .filter(({ day }) => one.fromDay <= day && day <= one.untilDay)
        .flatMap(({ day }) => {
          const start = day === one.fromDay ? one.fromMinute : 0;
          const end = day === one.untilDay ? one.untilMinute : 1440;
          return end > start ? [{ day, start, end, why: 'absence' }] : [];
        }),
    );
}

type Around = { rows: WorldRows; days: readonly DayInput[]; from: string; unlicensed: readonly string[] | null };

const personOf = (person: PersonRows, { rows, days, from, unlicensed }: Around): PersonInput => ({
  id: person.id,
  name: person.name,
  base: { lat: person.lat, lon: person.lon },
  ...licensedOf(person, from),
  trainee: person.trainee,
  mayLead: person.mayLead,
  qualifications: [
    ...person.licenses.filter(heldOn(from)).map(({ kind, until }) => ({ key: kind, until })),
    ...person.qualifications.filter(heldOn(from)).map(({ key, until }) => ({ key, until })),
  ],
  shifts: shiftsOf(person, days, rows.closedDays),
  off: offOf(person.id, rows.absences, days),
  missingAcknowledgements: person.missing,
  recentMinutes: person.recentMinutes,
  barredFrom: person.bars,
  sizes: person.sizes,
  ...(unlicensed !== null && person.trainee ? { unlicensedSecond: unlicensed } : {}),
});

type KitRows = WorldRows['kit'][number];

const poolOf = (kind: string, name: string, { calibrated }: KitRows, items: KitRows['items']): KitPool => ({
  kind,
  name: name.charAt(0).toLowerCase() + name.slice(1),
  count: items.length,
  outOfService: calibrated
    ? items.map(({ calibratedUntil }) => ({ from: calibratedUntil === null ? '0001-01-01' : addDays(calibratedUntil, 1), count: 1 }))
    : [],
});

/** One pool of a kind; of what is worn one of each size, and an empty one for whoever has no size on file. */
function poolsOf(row: KitRows): KitPool[] {
  const { kind, name, carriedByAll, worn, of, items } = row;
  if (carriedByAll) return [{ kind, name, count: PLENTY, outOfService: [] }];
  if (!worn) return [{ ...poolOf(kind, name, row, items), ...(of === null ? {} : { of }) }];
  const sizes = [...new Set(items.flatMap(({ size }) => size ?? []))].sort();
  const ofSize = (size: string): KitPool => ({
    ...poolOf(
      wornPool(kind, size),
      `${name} in size ${size}`,
      row,
      items.filter((one) => one.size === size),
    ),
    worn: kind,
  });
  return [{ ...poolOf(wornPool(kind, undefined), `${name} for who has no size on file`, row, []), worn: kind }, ...sizes.map(ofSize)];
}

const busyOf = ({ id, crew, observers, day, start, end, lat, lon, kit, reportMinutes }: WorldRows['visits'][number]): Busy => ({
  id,
  personIds: crew,
  observerIds: observers,
  day,
  start,
  end,
  place: { lat, lon },
  kit,
  reportMinutes,
});

/**
 * Only who let the grace pass is kept from visits: until then everybody may still be booked for later days, or approving a
 * revision would empty the calendar beyond it. Visits booked so stay, and the pair acknowledges at the start at the latest.
 */
const overdue = (people: PersonInput[], today: string): PersonInput[] =>
  people.map((person) => ({
    ...person,
    missingAcknowledgements: person.missingAcknowledgements.filter(({ afterDay }) => today > afterDay),
  }));

/** The world, and where outside providers are in it. */
export type LoadedWorld = World & { outside: WorldRows['outside'] };

/** The world without one visit and its outside providers, as it is when that visit moves. */
export const without = <W extends LoadedWorld>(world: W, visitId: string | null): W =>
  visitId === null
    ? world
    : {
        ...world,
        busy: world.busy.filter(({ id }) => id !== visitId),
        outside: world.outside.filter((one) => one.visitId !== visitId),
      };

/**
 * People, visits, rules and kit from day `from` to day `to`, both included, with the hours and visits some days around them
 * that writing reaches to; holds whose time is over bind nobody. `place` is one to which driving times are needed besides
 * those of the visits. `ranked` false: enough for what rules say of one start, not for which is better.
 */
export async function loadWorld(
  reader: Reader,
  q: { from: string; to: string; now: Date; officeId: string; zone: string; place?: { lat: number; lon: number }; ranked?: boolean },
): Promise<LoadedWorld> {
  const first = addDays(q.from, -WRITING_REACH_DAYS);
  const days = daysFrom(first, daysBetween(q.from, q.to) + 1 + 2 * WRITING_REACH_DAYS).map((day) => ({ day, weekday: weekdayOf(day) }));
  const rows = await findWorld(reader, {
    from: startOfDay(q.from, q.zone),
    until: startOfDay(addDays(q.to, 1), q.zone),
    zone: q.zone,
    now: q.now,
    officeId: q.officeId,
    place: q.place ?? null,
    ranked: q.ranked ?? true,
  });
  const earlier = rows.visits.filter(({ day, crew }) => day < first && crew.length === 2);
  const around = { rows, days, from: q.from, unlicensed: traineeRuleOf(rows.traineeRule) };
  return {
    people: overdue(
      rows.people.map((person) => personOf(person, around)),
      wallTime(q.now, q.zone).day,
    ),
    busy: rows.visits.filter(({ day }) => day >= first).map(busyOf),
    pairRules: rows.pairRules,
    kit: rows.kit.flatMap(poolsOf),
    together: earlier.map(({ crew, day }) => ({ a: crew[0]!, b: crew[1]!, day })),
    travel: rows.travel,
    outside: rows.outside,
    closures: rows.closures,
  };
}
