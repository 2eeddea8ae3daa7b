// Tag: time.
// Days, minutes and how they are said.
import { describe, expect, it } from 'vitest';
import { addDays, dayNumber, dayOf, daysBetween, sayDay, sayMinutes, sayTime } from '@backsight/scheduling/time';

describe('days', () => {
  it('agree with the calendar of the language over 400 years', () => {
    for (let number = dayNumber('1900-01-01'); number < dayNumber('2300-01-01'); number += 17) {
      const day = new Date(number * 86_400_000).toISOString().slice(0, 10);
      expect(dayOf(number)).toBe(day);
      expect(dayNumber(day)).toBe(number);
    }
  });

  it.each([
    ['2028-02-28', 1, '2028-02-29'],
    ['2026-12-31', 1, '2027-01-01'],
    ['2026-03-08', -7, '2026-03-01'],
  ])('%s and %d days is %s', (day, count, expected) => {
    expect(addDays(day, count)).toBe(expected);
    expect(daysBetween(day, expected)).toBe(count);
  });

  it.each(['2026-3-8', '03/08/2026', '', '2026-03-08T00:00'])('refuses %j', (text) => expect(() => dayNumber(text)).toThrow(RangeError));

  // ISO 8601: 1 January 2026 is a Thursday.
  it.each([
    ['2026-01-01', 'Thu, Jan 1'],
    ['2026-07-14', 'Tue, Jul 14'],
    ['1969-12-31', 'Wed, Dec 31'],
  ])('says %s as %s', (day, said) => expect(sayDay(day)).toBe(said));
});

describe('minutes', () => {
  it.each([
    [0, '12:00 AM'],
    [540, '9:00 AM'],
    [719.9, '11:59 AM'],
    [720, '12:00 PM'],
    [890, '2:50 PM'],
    [1443, '12:03 AM'],
  ])('clock %d is %s', (minute, said) => expect(sayTime(minute)).toBe(said));
  it.each([
    [0, '0 min'],
    [45, '45 min'],
    [180, '3 h'],
    [195, '3 h 15 min'],
  ])('%d minutes is %s', (minutes, said) => expect(sayMinutes(minutes)).toBe(said));
});
