// Tag: time.
// What an answer to "when can you come?" looks like: order, score parts, wishes, marks, windows, clocks and bad questions.
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { sunsetMinute } from '@backsight/scheduling/daylight';
import { explainDay } from '@backsight/scheduling/explainDay';
import { findStarts } from '@backsight/scheduling/findStarts';
import { estimatedTravel } from '@backsight/scheduling/travel';
import type { StartQuery, World } from '@backsight/scheduling/world';
import { indexWorld } from '@backsight/scheduling/worldIndex';
import { BIRCHMERE, MON, NINE, person, PORT_ANSEL, query, TUE, visit, WED, world } from './cast.ts';

const best = (given: World, change: Partial<StartQuery> = {}) => findStarts(given, query(change)).options[0]!;
const three = world({ people: [person('ann'), person('ben'), person('cal')] });

describe('score', () => {
  it('added driving is the way there and back from the base, for each of the two', () => {
    const each = 2 * estimatedTravel.minutes(BIRCHMERE, PORT_ANSEL);
    const option = best(world({ people: [person('ann'), person('ben', { base: PORT_ANSEL })] }), { place: PORT_ANSEL, earliest: 510 });
    expect(option).toMatchObject({ first: 'ann', second: 'ben', parts: { addedDriving: [each, 0] } });
    expect(option.sentence).toBe(
      'Tue, Jul 14, 8:30 AM to 11:30 AM, Ann Bell first with Ben Cole: 52 min more driving; leaves a gap too short for another visit.',
    );
  });

  it('driving that happens anyway is not counted', () => {
    const busy = [visit('v1', ['ann', 'ben'], 510, 600, { place: PORT_ANSEL })];
    expect(best(world({ busy }), { place: PORT_ANSEL, earliest: 600 }).parts.addedDriving).toEqual([0, 0]);
  });

  it('a start that leaves no useless gap is preferred', () => {
    const option = best(world({ busy: [visit('v1', ['ann', 'ben'], 480, 600)] }), { earliest: 600 });
    expect([option.start, option.parts.idleGap]).toEqual([600, 0]);
    expect(best(world({ busy: [visit('v1', ['ann', 'ben'], 480, 600)] }), { earliest: 630, latestEnd: 810 })).toMatchObject({
      start: 630,
      parts: { idleGap: 15 },
      sentence: expect.stringContaining('leaves a gap too short for another visit'),
    });
  });

  it('overtime is allowed up to the limit and paid for', () => {
    const late = { place: PORT_ANSEL, earliest: 840, latestEnd: 1020 };
    expect(findStarts(world(), query(late)).options).toEqual([]);
    const homeLate = [visit('v1', ['ann', 'ben'], 480, 1005, { place: PORT_ANSEL })];
    expect(
      best(world({ overtimeLimit: 30, busy: homeLate }), { place: PORT_ANSEL, durationMinutes: 15, earliest: 1005 }).parts.overtime,
    ).toBe(2 * 1.5 * 15);
    const option = best(world({ overtimeLimit: 30 }), late);
    expect(option.parts.overtime).toBe(2 * 1.5 * estimatedTravel.minutes(PORT_ANSEL, BIRCHMERE));
    expect(option.sentence).toContain('52 min after working hours');
  });

  it('the least loaded people come first', () => {
    const loads = world({
      people: [person('ann', { recentMinutes: 1000 }), person('ben', { recentMinutes: 500 }), person('cal', { recentMinutes: 400 })],
    });
    expect(best(loads)).toMatchObject({ first: 'ben', second: 'cal', parts: { fairness: 1 } });
  });

  it('pairs take turns, but a pair of the same day stays together', () => {
    const together = [{ a: 'ben', b: 'ann', day: MON }];
    expect(best({ ...three, together })).toMatchObject({ first: 'ann', second: 'cal', parts: { rotation: 0 } });
    expect(best({ ...three, people: three.people.slice(0, 2), together }).parts.rotation).toBe(11);
    expect(best({ ...three, people: three.people.slice(0, 2), together: [{ a: 'ann', b: 'ben', day: '2026-06-30' }] }).parts.rotation).toBe(
      0,
    );
    const sameDay = world({ busy: [visit('v1', ['ann', 'ben'], 480, 660)], together });
    expect(best(sameDay).parts.rotation).toBe(0);
  });

  it('a wish for a person or a half of the day weighs, but does not exclude', () => {
    expect(best(three, { wishes: { personId: 'cal' } })).toMatchObject({ first: 'ann', second: 'cal', parts: { wish: 0 } });
    expect(best(three, { wishes: { half: 'afternoon' } }).start).toBeGreaterThanOrEqual(720);
    expect(best(three, { wishes: { half: 'afternoon' }, latestEnd: 700 }).parts.wish).toBe(15);
  });

  it('who may go first is first, the smaller id when both may', () => {
    expect(best(world())).toMatchObject({ first: 'ann', second: 'ben' });
    expect(best(world({ people: [person('ann', { mayLead: false }), person('ben')] }))).toMatchObject({ first: 'ben', second: 'ann' });
  });
});

describe('window', () => {
  it('both halves of a day are offered, on the grid, within the hours asked for', () => {
    const { options } = findStarts(three, query({ earliest: 490, grid: 30, durationMinutes: 120 }));
    expect(options.some((one) => one.start < 720) && options.some((one) => one.start >= 720)).toBe(true);
    expect(options.every((one) => one.start % 30 === 0 && one.start >= 490 && one.end <= 1020)).toBe(true);
  });

  it('nothing before the moment given, and days gone by say so', () => {
    const { options, blockedDays } = findStarts(world(), query({ days: [MON, TUE], latestEnd: 800, notBefore: { day: TUE, minute: 601 } }));
    expect(options.map((one) => one.start)).toEqual([615]);
    expect(blockedDays).toEqual([{ day: MON, reasons: ['Mon, Jul 13 is past.'] }]);
  });

  it('at most the number asked for, the best ones', () => {
    const all = findStarts(three, query({ days: [MON, TUE, WED] })).options;
    expect(findStarts(three, query({ days: [MON, TUE, WED], limit: 5 })).options).toEqual(all.slice(0, 5));
    expect(all.map((one) => one.score)).toEqual(all.map((one) => one.score).sort((a, b) => a - b));
  });

  it('one person for a visit of one', () => {
    expect(best(three, { crewSize: 1 })).toMatchObject({
      first: 'ann',
      second: null,
      parts: { addedDriving: [0, 0] },
      sentence: 'Tue, Jul 14, 8:00 AM to 11:00 AM, Ann Bell: no more driving.',
    });
  });

  it('a split day begins and ends at the base in each part', () => {
    const shifts = [
      { day: TUE, start: 480, end: 720 },
      { day: TUE, start: 780, end: 1020 },
    ];
    const split = world({
      people: ['ann', 'ben'].map((id) => person(id, { shifts })),
      busy: [visit('v1', ['ann', 'ben'], 510, 690, { place: PORT_ANSEL })],
    });
    expect(Math.min(...findStarts(split, query({ place: PORT_ANSEL, durationMinutes: 60 })).options.map((one) => one.start))).toBe(810);
    expect(
      checkStart(split, query({ place: PORT_ANSEL, durationMinutes: 60 }), { day: TUE, start: 795, first: 'ann', second: 'ben' }).map(
        (one) => one.code,
      ),
    ).toEqual(['outside-hours', 'outside-hours']);
    expect(
      checkStart(split, query({ place: PORT_ANSEL, durationMinutes: 60 }), { day: TUE, start: 810, first: 'ann', second: 'ben' }),
    ).toEqual([]);
  });

  it('a split day: home at noon although the afternoon goes on next door', () => {
    const shifts = [
      { day: TUE, start: 480, end: 720 },
      { day: TUE, start: 780, end: 1020 },
    ];
    const split = world({
      people: ['ann', 'ben'].map((id) => person(id, { shifts })),
      busy: [visit('v1', ['ann', 'ben'], 810, 990, { place: PORT_ANSEL })],
    });
    const asked = query({ place: PORT_ANSEL, durationMinutes: 60 });
    const check = (start: number) => checkStart(split, asked, { day: TUE, start, first: 'ann', second: 'ben' }).map((one) => one.code);
    expect([check(630), check(645)]).toEqual([[], ['outside-hours', 'outside-hours']]);
    expect(Math.max(...findStarts(split, asked).options.map((one) => one.start))).toBeLessThanOrEqual(630);
  });
});

describe('which crews are kept', () => {
  it('a crew with two free gaps is named once, at the earlier of equal starts', () => {
    const off = [{ day: TUE, start: 600, end: 630, why: 'dentist' }];
    const { options } = findStarts(
      world({ people: ['ann', 'ben'].map((id) => person(id, { off })) }),
      query({ durationMinutes: 120, latestEnd: 800 }),
    );
    expect(options.map((one) => one.start)).toEqual([480]);
  });

  it('of equal scores the earlier start', () => {
    const later = ['a1', 'a2', 'a3', 'a4'].map((id) => person(id, { shifts: [{ day: TUE, start: 510, end: 1020 }] }));
    const given = world({ people: [...later, ...['b1', 'b2', 'b3', 'b4'].map((id) => person(id))] });
    expect(findStarts(given, query({ latestEnd: 800 })).options.map((one) => [one.first, one.second, one.start])).toEqual([
      ['b1', 'b2', 480],
      ['b1', 'b3', 480],
      ['b1', 'b4', 480],
      ['b2', 'b3', 480],
    ]);
  });
});

describe('marks and limits', () => {
  const deadline = (day: string, reportMinutesAfter: number) =>
    best(world(), { earliest: NINE, latestEnd: 720, reportDeadline: { day, reportMinutesAfter } }).marks;

  it('a report that would come after the objection deadline is marked', () => {
    expect(deadline(TUE, 1440)).toEqual(['The report would be ready on Wed, Jul 15, after the objection deadline of Tue, Jul 14.']);
    expect(deadline(WED, 1440)).toEqual([]);
    expect(deadline(TUE, 719)).toEqual([]);
    expect(best(world()).marks).toEqual([]);
  });

  it('the limit that a start comes closest to is named', () => {
    expect(best(world(), { earliest: 510, latestEnd: 700 }).tightest).toEqual({ kind: 'asked hours', slack: 0 });
    expect(best(world(), { earliest: 510, latestEnd: 1000, roofWork: { offsetMinutes: 720 } }).tightest).toEqual({
      kind: 'asked hours',
      slack: 0,
    });
    expect(best(world({ busy: [visit('v1', ['ann', 'ben'], 480, 585)] }), { earliest: 500 }).tightest).toEqual({
      kind: 'travel',
      slack: 0,
    });
    const home = world({ people: ['ann', 'ben'].map((id) => person(id, { shifts: [{ day: TUE, start: 480, end: 870 + 27 }] })) });
    expect(best(home, { place: PORT_ANSEL, earliest: 680, latestEnd: 890 }).tightest).toEqual({ kind: 'working hours', slack: 1 });
    const long = world({ people: ['ann', 'ben'].map((id) => person(id, { shifts: [{ day: TUE, start: 480, end: 1320 }] })) });
    const offsetMinutes = Math.floor(sunsetMinute(BIRCHMERE, TUE, -300)) - 842;
    expect(best(long, { earliest: 835, latestEnd: 1100, roofWork: { offsetMinutes } }).tightest).toEqual({ kind: 'daylight', slack: 2 });
  });
});

describe('clock changes', () => {
  // Central time: clocks go forward on 8 March 2026 and back on 1 November 2026.
  const on = (day: string, offset: number) =>
    Math.max(
      ...findStarts(
        world({ people: ['ann', 'ben'].map((id) => person(id, { shifts: [{ day, start: 480, end: 1320 }] })) }),
        query({
          days: [day],
          durationMinutes: 60,
          latestEnd: 1320,
          grid: 15,
          roofWork: { offsetMinutes: 0 },
          wishes: { half: 'afternoon' },
          earliest: 960,
          utcOffsetMinutesByDay: { [day]: offset },
        }),
      ).options.map((one) => one.start),
    );
  const startsOn = (day: string) =>
    best(world({ people: ['ann', 'ben'].map((id) => person(id, { shifts: [{ day, start: 480, end: 1020 }] })) }), {
      days: [day],
      utcOffsetMinutesByDay: {},
    }).start;

  it('a working day begins at the same minute', () => {
    expect(['2026-03-07', '2026-03-08', '2026-10-31', '2026-11-01'].map(startsOn)).toEqual([480, 480, 480, 480]);
  });

  it('daylight uses the offset of the day', () => {
    const reasons = (day: string, offset: number) =>
      explainDay(
        world({ people: ['ann', 'ben'].map((id) => person(id, { shifts: [{ day, start: 480, end: 1320 }] })) }),
        query({
          days: [day],
          earliest: 1140,
          latestEnd: 1320,
          durationMinutes: 60,
          roofWork: { offsetMinutes: 30 },
          utcOffsetMinutesByDay: { [day]: offset },
        }),
        day,
      ).reasons[0];
    expect(reasons('2026-03-07', -360)).toMatch(/^Daylight ends at 5:5\d PM/);
    expect(reasons('2026-03-08', -300)).toMatch(/^Daylight ends at 6:5\d PM/);
    expect(on('2026-10-31', -300)).toBeGreaterThanOrEqual(960);
  });

  it('a day without its offset is an error of the caller', () => {
    expect(() => findStarts(world(), query({ roofWork: { offsetMinutes: 0 }, utcOffsetMinutesByDay: {} }))).toThrow(RangeError);
  });
});

describe('questions that cannot be answered', () => {
  it.each([
    [{ place: { lat: 0, lon: 0 } }, 'The property has no place on the map yet.'],
    [{ place: { lat: NaN, lon: -89 } }, 'The property has no place on the map yet.'],
    [{ durationMinutes: 0 }, 'The visit must take between 1 min and 12 h.'],
    [{ durationMinutes: 100_000 }, 'The visit must take between 1 min and 12 h.'],
    [{ earliest: 600, latestEnd: 700 }, 'A visit of 3 h does not fit between 10:00 AM and 11:40 AM.'],
  ])('%j', (change, reason) => {
    expect(findStarts(world(), query(change))).toEqual({ options: [], blockedDays: [{ day: TUE, reasons: [reason] }] });
    expect(explainDay(world(), query(change), TUE)).toEqual({ reasons: [reason] });
  });

  it('a firm with nobody in it', () => {
    expect(findStarts(world({ people: [] }), query()).blockedDays).toEqual([{ day: TUE, reasons: ['The firm has nobody to send yet.'] }]);
  });

  it('a person whose shifts overlap is not paired with himself', () => {
    const shifts = [480, 490].map((start) => ({ day: TUE, start, end: 1020 }));
    expect(findStarts(world({ people: [person('ann', { shifts })] }), query()).options).toEqual([]);
  });

  it('a day that the index was not made for is an error of the caller', () => {
    expect(() => findStarts(world(), query(), indexWorld(world(), [MON]))).toThrow(RangeError);
  });
});

describe('bookings nearby', () => {
  it('make a start cheaper, so freeing one may raise the best score although it never takes a start away', () => {
    const nextDoor = [visit('v1', ['ann', 'ben'], 510, 600, { place: PORT_ANSEL })];
    const asked = { place: PORT_ANSEL, durationMinutes: 90 };
    expect(best(world({ busy: nextDoor }), asked).score).toBeLessThan(best(world(), asked).score);
  });
});
