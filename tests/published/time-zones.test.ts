// Tag: time.
// The wall clock of United States zones through our own deadlines, clock changes as the running system knows them, ISO weeks.
import { DateTime } from 'luxon';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { instantOf as scheduledAt, offsetsOf, wallTime } from '@backsight/domain/schedule/wallClock';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { deadline } from '@backsight/domain/shared/deadline';
import { clockChanges, dayLengths, isoWeeks, localTimes, spans } from './data/timeZones.ts';

const minute = 60_000;

/** Instant (ms) of a local time, by closing the office at that minute and asking for the end of that business day. */
function instantOf(local: string, zone: string): number {
  const [day = '', time = ''] = local.split('T');
  const open = { start: 0, end: Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5)) };
  const calendar = { zone, hours: { 1: open, 2: open, 3: open, 4: open, 5: open, 6: open, 7: open }, closedDays: [] };
  const midnight = DateTime.fromISO(day, { zone }).toUTC().toISO();
  return Date.parse(deadline({ amount: 0, unit: 'businessDays' }, midnight ?? '', [], calendar) ?? '');
}

function offsetsByDay(zone: string): number[] {
  const first = DateTime.utc(2026, 1, 1);
  return Array.from({ length: 365 + 365 + 366 }, (_, day) => first.plus({ days: day }).setZone(zone).offset);
}

describe('clock changes', () => {
  it.each(clockChanges)('$name, 2026 to 2028 ($source; $status)', ({ zone, changes }) => {
    for (const { utc, offsetBefore, offsetAfter } of changes) {
      const at = DateTime.fromISO(utc, { zone });
      expect(at.minus({ milliseconds: 1 }).offset).toBe(offsetBefore);
      expect(at.offset).toBe(offsetAfter);
    }
    const offsets = offsetsByDay(zone);
    expect(offsets.filter((offset, day) => day > 0 && offset !== offsets[day - 1])).toHaveLength(changes.length);
  });
});

// A local time that happens twice may be read either way; the reading must not depend on the season in which it is asked for.
describe.each(['2026-01-15', '2026-07-15'])('wall clock, asked on %s', (today) => {
  beforeEach(() => void vi.useFakeTimers({ now: new Date(today) }));
  afterEach(() => void vi.useRealTimers());

  it.each(localTimes)('$name, $kind: the offset before the change ($source; $status)', ({ zone, local, earlierOffset }) => {
    expect(instantOf(local, zone)).toBe(Date.parse(earlierOffset));
  });

  it.each(spans)('$name ($source; $status)', ({ zone, from, to, elapsed, wallClock }) => {
    expect((instantOf(to, zone) - instantOf(from, zone)) / minute).toBe(elapsed);
    expect((Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / minute).toBe(wallClock);
  });

  it.each(dayLengths)('$name ($source; $status)', ({ zone, day, hours }) => {
    expect((instantOf(`${day}T24:00`, zone) - instantOf(`${shiftDay(day, -1)}T24:00`, zone)) / (60 * minute)).toBe(hours);
  });
});

// The schedule's own clock: starts are minutes of the local day, and one that the clock skips is refused instead of moved.
describe('wall clock of the schedule', () => {
  const minuteOf = (local: string): number => Number(local.slice(11, 13)) * 60 + Number(local.slice(14, 16));

  it.each(localTimes)('$name, $kind ($source; $status)', ({ zone, local, kind, earlierOffset }) => {
    const day = local.slice(0, 10);
    const at = scheduledAt(day, minuteOf(local), zone);
    if (kind === 'gap') return expect(at).toMatchObject({ ok: false, code: 'start-not-real' });
    expect(at.ok && at.value.getTime()).toBe(Date.parse(earlierOffset));
    expect(wallTime(new Date(earlierOffset), zone)).toEqual({ day, minute: minuteOf(local) });
  });

  it.each(spans)('$name ($source; $status)', ({ zone, from, to, elapsed }) => {
    const [start, end] = [from, to].map((local) => scheduledAt(local.slice(0, 10), minuteOf(local), zone));
    expect(start!.ok && end!.ok && (end!.value.getTime() - start!.value.getTime()) / minute).toBe(elapsed);
  });

  it.each(clockChanges)('$name: the working day of a change has the offset after it ($source; $status)', ({ zone, changes }) => {
    for (const { utc, offsetBefore, offsetAfter } of changes) {
      const { day } = wallTime(new Date(utc), zone);
      expect(offsetsOf([shiftDay(day, -1), day], zone)).toEqual({ [shiftDay(day, -1)]: offsetBefore, [day]: offsetAfter });
    }
  });
});

describe('ISO weeks', () => {
  it.each(isoWeeks)('$name ($source; $status)', ({ day, week }) => expect(DateTime.fromISO(day).toISOWeekDate()).toBe(week));
});
