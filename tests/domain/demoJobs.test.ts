// Which jobs the demo firm has, on any day of the start: those that are played, and those that are written.
import { expect, it } from 'vitest';
import { calendarOf } from '../../prisma/seed/demo/calendar.ts';
import { FIRST_DAYS_AGO, jobsWritten } from '../../prisma/seed/demo/history/history.ts';
import { PLAYED_WORKDAYS, plansOf } from '../../prisma/seed/demo/plan.ts';

const NOW = new Date('2026-05-13T16:30:00Z');

it.each(['2026-05-13T16:30:00Z', '2026-11-30T12:00:00Z', '2027-01-09T12:00:00Z', '2027-12-28T12:00:00Z'])(
  'about 280 of twelve weeks and thousands before, no two at one house: %s',
  (now) => {
    const [calendar, at] = [calendarOf(new Date(now)), new Date(now)];
    const { before, beside } = jobsWritten(calendar, FIRST_DAYS_AGO);
    const plain = beside.filter(({ day }) => day >= calendar.workday(-PLAYED_WORKDAYS));
    expect([plain, plansOf(calendar, at, PLAYED_WORKDAYS).length + beside.length > 255, before.length > 2_300]).toEqual([[], true, true]);
    const houses = [...before, ...beside].map(({ home }) => home.address);
    expect(new Set(houses).size).toBe(houses.length);
  },
);

it.each([
  ['a Wednesday morning', NOW, 0],
  ['a Wednesday evening', new Date('2026-05-13T23:05:00Z'), 1],
  ['a Saturday night', new Date('2026-05-16T09:00:00Z'), 2],
])('lets somebody go out when the firm would not by itself: %s', (_, now, visits) => {
  expect(plansOf(calendarOf(now), now).filter(({ role }) => role === 'near_now')).toHaveLength(visits);
});
