// One day of one question, prepared: what is fixed for every crew before people are looked at.
import { sunsetMinute } from './daylight.ts';
import { kitGate } from './kit.ts';
import type { KitGate } from './kit.ts';
import { outsideGate } from './outside.ts';
import type { RuleCode } from './rules.ts';
import { dayNumber } from './time.ts';
import type { Minute } from './time.ts';
import type { travelAround } from './travel.ts';
import type { StartQuery } from './world.ts';
import { weatherGate } from './weather.ts';
import type { DayRow, WorldIndex } from './worldIndex.ts';

export type SearchDay = {
  index: WorldIndex;
  query: StartQuery;
  row: DayRow;
  number: number;
  drive: ReturnType<typeof travelAround>;
  earliest: Minute;
  /** Latest start that leaves daylight for the roof; Infinity without roof work. */
  daylightStart: number;
  /** Null when every crew can be given the kit. */
  kit: KitGate | null;
  /** Tells whether outside providers can come at a start; null when they always can. */
  outside: ReturnType<typeof outsideGate>;
  /** Tells whether the weather lets the visit take place at a start; null when nothing is closed. */
  weather: ReturnType<typeof weatherGate>;
  /** Rules left out, to find which one is binding. */
  waived: ReadonlySet<RuleCode>;
};

/** Latest start (minute, not rounded) that leaves daylight for the roof; throws RangeError when the day's UTC offset is not given. */
export function latestRoofStart(query: Pick<StartQuery, 'place' | 'roofWork' | 'utcOffsetMinutesByDay'>, day: string): number {
  if (!query.roofWork) return Infinity;
  const offset = query.utcOffsetMinutesByDay[day];
  if (offset === undefined) throw new RangeError(`UTC offset of ${day} is needed for daylight`);
  return sunsetMinute(query.place, day, offset) - query.roofWork.offsetMinutes;
}

/** Prepares the search of one day; `day` must be one of the index. */
export function searchOf(index: WorldIndex, query: StartQuery, day: string, drive: SearchDay['drive']): SearchDay {
  const row = index.days.get(day);
  if (!row) throw new RangeError(`${day} is not a day of the index`);
  const notBefore = query.notBefore;
  const inPast = notBefore !== undefined && day < notBefore.day;
  return {
    index,
    query,
    row,
    number: dayNumber(day),
    drive,
    earliest: inPast ? Infinity : Math.max(query.earliest, notBefore?.day === day ? notBefore.minute : 0),
    daylightStart: latestRoofStart(query, day),
    kit: kitGate(index.world, row.visits, query.kit, day),
    outside: outsideGate(query, day),
    weather: weatherGate(index.world, query, day),
    waived: new Set(),
  };
}
