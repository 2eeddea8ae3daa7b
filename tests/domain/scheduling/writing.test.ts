// Writing as working time, by hand: it fits after the visit, it waits for the next working day, it does not fit, and nobody writes nothing.
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { findStarts } from '@backsight/scheduling/findStarts';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { flowOf, writingDays } from '@backsight/scheduling/writing';
import { MON, person, query, TUE, visit, WED, world } from './cast.ts';

const ask = (more = {}) => query({ durationMinutes: 240, reportMinutes: 120, ...more });
const codes = (given: ReturnType<typeof world>, more = {}, start = 480) =>
  checkStart(given, ask(more), { day: TUE, start, first: 'ann', second: 'ben' }).map(({ code }) => code);
/** Booked for the whole of a day, with nothing to write. */
const full = (day: string, id = 'ann') => visit(`full-${day}-${id}`, [id, 'x'], 480, 1020, { day });

describe('writing', () => {
  it.each<[string, ReturnType<typeof world>, string[], number, number]>([
    ['fits after the visit of the same day', world({ busy: [full(WED)] }), [], 480, 120],
    ['waits for the next working day when the visit ends with the hours', world(), [], 780, 120],
    ['does not fit when the visit ends with the hours and the next day is full', world({ busy: [full(WED)] }), ['writing'], 780, 120],
    ['time before the visit does not help: it is written after', world({ busy: [full(WED)] }), ['writing'], 690, 120],
    ['the second writes nothing', world({ busy: [full(WED, 'ben')] }), [], 780, 120],
    [
      'a report that waits from the day before comes first',
      world({ busy: [visit('m', ['ann', 'x'], 540, 1020, { day: MON, reportMinutes: 400 }), full(WED)] }),
      ['writing'],
      480,
      120,
    ],
    ['nothing to write asks for no time', world({ busy: [full(WED)] }), [], 780, 0],
  ])('%s', (_, given, expected, start, reportMinutes) => {
    expect(codes(given, { reportMinutes }, start)).toEqual(expected);
  });

  it('a day away is no working day: the report waits for the day after', () => {
    const away = person('ann', {
      off: [{ day: WED, start: 0, end: 1440, why: 'vacation' }],
      shifts: [MON, TUE, WED, '2026-07-16'].map((day) => ({ day, start: 480, end: 1020 })),
    });
    expect(codes(world({ people: [away, person('ben')] }), {}, 780)).toEqual([]);
  });

  it('the other goes first when only he has the time to write', () => {
    const [option] = findStarts(world({ busy: [full(WED)] }), ask({ earliest: 780 })).options;
    expect(option).toMatchObject({ start: 780, first: 'ben', second: 'ann' });
  });

  it('a day on which nobody could write is not offered, and says so', () => {
    const given = world({ busy: [full(WED), full(WED, 'ben')] });
    const { options, blockedDays } = findStarts(given, ask({ earliest: 780 }));
    expect(options).toEqual([]);
    expect(blockedDays[0]!.reasons).toContain(
      'Nobody who is free could write the report (120 min) and what waits already by the end of the next working day.',
    );
  });

  it('says what is written on which day', () => {
    const given = world({ busy: [visit('a', ['ann', 'ben'], 780, 960, { reportMinutes: 90 })] });
    const flow = flowOf(writingDays(given, given.people[0]!, estimatedTravel));
    expect(flow.map(({ day, written, passed, late }) => [day, written, passed, late])).toEqual([
      [MON, 0, 0, 0],
      [TUE, 60, 30, 0],
      [WED, 30, 0, 0],
    ]);
  });
});
