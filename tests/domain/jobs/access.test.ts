// When codes of houses and numbers of their people are shown: days of the calendar around a visit, also where clocks change.
import { describe, expect, it } from 'vitest';
import { aroundVisit, mayCall, maySeeCodes } from '@backsight/domain/jobs/access';

// Clocks of America/Chicago: forward on Sunday, March 8, 2026, back on Sunday, November 1, 2026 (15 U.S.C. 260a; IANA time zone database).
const zone = 'America/Chicago';
const visit = (from: string, until: string) => ({ startsAt: new Date(from), endsAt: new Date(until), zone });
const usual = visit('2026-05-13T14:00:00Z', '2026-05-13T17:00:00Z');
const spring = visit('2026-03-09T14:00:00Z', '2026-03-09T17:00:00Z');
const autumn = visit('2026-11-02T15:00:00Z', '2026-11-02T18:00:00Z');
const overnight = visit('2026-05-14T03:00:00Z', '2026-05-14T06:00:00Z');

describe('the days around a visit', () => {
  it.each([
    ['a second before the day before', usual, '2026-05-12T04:59:59Z', false],
    ['midnight of the day before', usual, '2026-05-12T05:00:00Z', true],
    ['during it', usual, '2026-05-13T15:00:00Z', true],
    ['the last second of the day after', usual, '2026-05-15T04:59:59Z', true],
    ['midnight after the day after', usual, '2026-05-15T05:00:00Z', false],
    ['the day before is the one of 23 hours: its midnight is still winter time', spring, '2026-03-08T06:00:00Z', true],
    ['a second before that', spring, '2026-03-08T05:59:59Z', false],
    ['and the end is summer time', spring, '2026-03-11T04:59:59Z', true],
    ['an hour later it is over', spring, '2026-03-11T05:00:00Z', false],
    ['the day before is the one of 25 hours: its midnight is still summer time', autumn, '2026-11-01T05:00:00Z', true],
    ['a second before that, in autumn', autumn, '2026-11-01T04:59:59Z', false],
    ['and the end is winter time', autumn, '2026-11-04T05:59:59Z', true],
    ['an hour later it is over, in autumn', autumn, '2026-11-04T06:00:00Z', false],
    ['a visit over midnight counts from its first day', overnight, '2026-05-12T05:00:00Z', true],
    ['to its last', overnight, '2026-05-16T04:59:59Z', true],
  ])('%s', (_, times, now, around) => expect(aroundVisit(times, new Date(now))).toBe(around));
});

describe('codes and numbers', () => {
  const now = new Date('2026-05-13T15:00:00Z');
  const later = new Date('2026-05-20T15:00:00Z');
  it.each([
    ['booked', true, now, null, true],
    ['on_site', true, now, null, true],
    ['done', true, now, 'codes-not-now', true],
    ['ended', true, now, 'codes-not-now', true],
    ['held', true, now, 'codes-not-now', false],
    ['cancelled', true, now, 'codes-not-now', false],
    ['booked', false, now, 'not-on-this-visit', false],
    ['booked', true, later, 'codes-not-now', false],
    ['done', true, later, 'codes-not-now', false],
  ])('of a visit that is %s, for one who goes: %s, at %s: %s, numbers %s', (visitState, onVisit, at, codes, numbers) => {
    const facts = { ...usual, visitState, onVisit };
    const may = maySeeCodes(facts, at);
    expect(may.ok ? null : may.code).toBe(codes);
    expect(mayCall(facts, at)).toBe(numbers);
  });
});
