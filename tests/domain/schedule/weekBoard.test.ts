// Tag: time.
// The board of the week: where visits stand, what keys do with one in hand, what stands in the way of a person.
import { describe, expect, it } from 'vitest';
import type { Week } from '@backsight/contract/schedule';
import {
  boardOf,
  instantAt,
  markOf,
  inSteps,
  minuteOf,
  pairsTogether,
  placeAmong,
  placeOf,
  ROW,
  tagsOf,
  under,
} from '../../../apps/web/src/features/week/geometry.ts';
import { marksOf } from '../../../apps/web/src/features/week/marks.ts';
import { byKey, saySpot, withPerson, type Held } from '../../../apps/web/src/features/week/spot.ts';
import { buttonId, standsOf, walk } from '../../../apps/web/src/features/week/walk.ts';

const ZONE = 'America/Chicago';
const DAYS = ['2026-05-12', '2026-05-13'];
type Visit = Week['people'][number]['days'][number]['visits'][number];
const PAIR = { first: 'ann', second: 'cal' };
const visit = (id: string, startsAt: string, endsAt: string, more: Partial<Visit> = {}): Visit =>
  ({ id, startsAt, endsAt, state: 'booked', place: 'first', withIds: ['cal'], ...PAIR, ...more }) as Visit;
/** 9:00 to 12:00 and 1:30 to 3:00 on the first day: Ann with Cal; Ben is free. */
const [MORNING, LATER] = [
  visit('m', '2026-05-12T14:00:00Z', '2026-05-12T17:00:00Z'),
  visit('l', '2026-05-12T18:30:00Z', '2026-05-12T20:00:00Z'),
];
const LEGS = [
  { from: null, to: 'm', minutes: 75, source: 'estimate' },
  { from: 'm', to: 'l', minutes: 20, source: 'estimate' },
  { from: 'l', to: null, minutes: 30, source: 'estimate' },
];
function person(id: string, visits: Visit[]) {
  const day = (at: string, own: Visit[]) => ({
    day: at,
    hours: [{ start: 480, end: 1020 }],
    exception: null,
    visits: own,
    legs: own.length > 0 ? LEGS : [],
    writing: { minutes: 0, late: 0 },
    absent: [],
  });
  return { id, name: id, trainee: false, mayLead: true, lapses: [], missing: [], days: [day(DAYS[0]!, visits), day(DAYS[1]!, [])] };
}
const both = [MORNING, LATER];
const seconds = both.map((one) => ({ ...one, place: 'second' as const, withIds: ['ann'] }));
const WEEK = {
  from: DAYS[0]!,
  zone: ZONE,
  roadService: false,
  days: DAYS,
  people: [person('ann', both), person('ben', []), person('cal', seconds)],
} as Week;
const BOARD = boardOf(WEEK, DAYS, (people) => people);

describe('the board', () => {
  it.each([
    ['summer', '2026-05-12T14:00:00Z', '2026-05-12', 540],
    ['winter', '2026-12-01T15:00:00Z', '2026-12-01', 540],
    ['the day on which the clocks go on', '2026-03-08T14:00:00Z', '2026-03-08', 540],
    ['the day before', '2026-05-12T04:00:00Z', '2026-05-12', -60],
  ])('reads the wall clock, and gives it back: %s', (_, iso, day, minute) => {
    expect(minuteOf(iso, day, ZONE)).toBe(minute);
    expect(Date.parse(instantAt(day, minute, ZONE))).toBe(Date.parse(iso));
  });
  it('shows whole hours that hold hours, visits and drives, and both of a pair joined', () => {
    expect(BOARD.frames).toEqual([
      { from: 420, until: 1020 },
      { from: 420, until: 1020 },
    ]);
    expect(BOARD.ties.map(({ visitId, at, minute, top, bottom }) => [visitId, at, minute, top, bottom])).toEqual([
      ['m', 0, 540, 0, 2],
      ['l', 0, 810, 0, 2],
    ]);
    expect(BOARD.rows[0]!.strips[0]!.drives.map(({ start, end }) => [start, end])).toEqual([
      [465, 540],
      [790, 810],
      [900, 930],
    ]);
    const ordered = boardOf(WEEK, [DAYS[0]!], pairsTogether(DAYS[0]!)).rows.map((row) => row.person.id);
    expect(ordered).toEqual(['ann', 'cal', 'ben']);
  });
  it('places minutes as shares of the width, cut at the edges', () => {
    const frame = { from: 480, until: 1080 };
    expect(placeOf(frame, { start: 540, end: 720 })).toEqual({ insetInlineStart: '10%', width: '30%' });
    expect(placeOf(frame, { start: 300, end: 1200 })).toEqual({ insetInlineStart: '0%', width: '100%' });
    // What is too short to be read is wider, within its day, and reaches back where the next visit follows close.
    const [short, end] = [{ start: 540, end: 560, back: false }, '100% - var(--least)'];
    expect(markOf(frame, short)).toEqual({ insetInlineStart: `max(0px, min(10%, ${end}))`, width: '3.333%' });
    expect(markOf(frame, { ...short, back: true }).insetInlineStart).toBe('max(0px, min(10%, 13.333% - var(--least)))');
    const pickUp = visit('p', '2026-05-12T13:40:00Z', '2026-05-12T13:50:00Z');
    const close = boardOf({ ...WEEK, people: [person('ann', [pickUp, ...both])] } as Week, DAYS, (people) => people);
    expect(close.rows[0]!.strips[0]!.blocks.map(({ back }) => back)).toEqual([true, false, false]);
    expect(placeAmong({ frames: [frame, frame], days: DAYS }, 1, { start: 780, end: 1080 })).toEqual({
      insetInlineStart: '75%',
      width: '25%',
    });
  });
  it('lets a late visit of one day squeeze no other day', () => {
    const late = visit('e', '2026-05-14T01:00:00Z', '2026-05-14T03:30:00Z');
    const [ann, ...others] = WEEK.people;
    const days = [ann!.days[0]!, { ...ann!.days[1]!, visits: [late] }];
    expect(boardOf({ ...WEEK, people: [{ ...ann!, days }, ...others] } as Week, DAYS, (people) => people).frames).toEqual([
      { from: 420, until: 1020 },
      { from: 420, until: 1380 },
    ]);
  });
  it.each([
    [0, 0, '2026-05-12', 420, 0],
    [250, ROW + 1, '2026-05-12', 720, 1],
    [750, 10 * ROW, '2026-05-13', 720, 2],
    [5000, -5, '2026-05-13', 1020, 0],
  ])('finds what lies under %i, %i', (x, y, day, minute, row) => {
    const found = under(BOARD, { x, y, width: 1000 });
    expect([found.day, Math.round(found.minute), found.row]).toEqual([day, minute, row]);
  });
  it('moves in quarters of an hour within the day, and names visits by letters', () => {
    expect([547, 548, -20, 2000].map(inSteps)).toEqual([540, 555, 0, 1425]);
    const many = Array.from({ length: 28 }, (_, n) => ({ id: String(n), startsAt: `2026-05-12T14:${String(n).padStart(2, '0')}:00Z` }));
    expect([...tagsOf([...many].reverse())].filter(([, tag]) => ['A', 'Z', 'AA', 'AB'].includes(tag)).map(([id]) => id)).toEqual([
      '0',
      '25',
      '26',
      '27',
    ]);
  });
});

describe('a visit in hand', () => {
  const spot = { day: DAYS[0]!, minute: 540, ...PAIR };
  const held: Held = { visit: MORNING, carrier: 'ann', was: spot, spot };
  const around = { days: DAYS, people: WEEK.people };
  it.each([
    ['ArrowRight', false, { ...spot, minute: 555 }],
    ['ArrowLeft', true, { ...spot, minute: 480 }],
    ['ArrowDown', false, { ...spot, first: 'ben' }],
    ['ArrowUp', false, spot],
    ['PageDown', false, { ...spot, day: '2026-05-13' }],
    ['PageUp', false, { ...spot, day: '2026-05-11' }],
  ])('%s (Shift %s)', (key, shiftKey, to) => {
    expect(byKey(held, { key, shiftKey }, around)?.spot).toEqual(to);
  });
  it('stays within the day, leaves other keys alone, and passes the row of the partner', () => {
    expect(byKey({ ...held, spot: { ...spot, minute: 1425 } }, { key: 'ArrowRight', shiftKey: true }, around)?.spot.minute).toBe(1425);
    expect(byKey(held, { key: 'x', shiftKey: false }, around)).toBeNull();
    const between = { days: DAYS, people: ['ann', 'cal', 'ben'].map((id) => ({ id })) };
    expect(byKey(held, { key: 'ArrowDown', shiftKey: false }, between)?.spot).toEqual({ ...spot, first: 'ben' });
    const ofCal = byKey({ ...held, carrier: 'cal' }, { key: 'ArrowUp', shiftKey: false }, around)!;
    expect(ofCal.spot).toEqual({ ...spot, second: 'ben' });
    expect(byKey(ofCal, { key: 'ArrowUp', shiftKey: false }, around)?.spot).toEqual(ofCal.spot);
    expect(withPerson(held, 'cal')).toMatchObject({ carrier: 'cal', spot });
    expect(saySpot(spot, (id) => id)).toBe('Tue, May 12, 9:00 AM, ann and cal');
  });
});

describe('walking', () => {
  it.each([
    ['m', 'ann', 'ArrowRight', 'l', 'ann'],
    ['l', 'ann', 'Home', 'm', 'ann'],
    ['l', 'ann', 'ArrowDown', 'l', 'cal'],
    ['m', 'cal', 'ArrowUp', 'm', 'ann'],
  ])('from %s of %s by %s', (visitId, id, key, toVisit, toId) => {
    expect(walk(standsOf(BOARD.rows), buttonId(visitId, id), key)).toBe(buttonId(toVisit, toId));
  });
  it('ends at the ends', () => {
    expect(walk(standsOf(BOARD.rows), buttonId('l', 'ann'), 'ArrowRight')).toBeNull();
    expect(walk(standsOf(BOARD.rows), buttonId('m', 'cal'), 'ArrowDown')).toBeNull();
    expect(walk(standsOf(BOARD.rows), 'elsewhere', 'ArrowDown')).toBeNull();
  });
});

describe('what stands in the way', () => {
  const lapses = [{ what: 'license', lastDay: '2026-05-12' }];
  const missing = [{ revision: 'Roof, revision 2', afterDay: '2026-05-12' }];
  it.each([
    ['before', '2026-05-11', '2026-05-11', []],
    ['the last day', '2026-05-12', '2026-05-12', ['last day of license', 'last day to acknowledge Roof, revision 2']],
    ['after it, looked at in time', '2026-05-13', '2026-05-12', ['license lapsed!', 'only if Roof, revision 2 is acknowledged']],
    ['after it, with the grace over', '2026-05-14', '2026-05-13', ['license lapsed!', 'not sent: Roof, revision 2 not acknowledged!']],
  ])('%s', (_, day, today, words) => {
    expect(marksOf({ lapses, missing }, { day }, today).map(({ text, bars }) => text + (bars ? '!' : ''))).toEqual(words);
  });
});
