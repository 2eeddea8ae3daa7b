// Tag: time.
// Federal holidays, the days kept in their place, and business days over them.
import { describe, expect, it } from 'vitest';
import { addBusinessDays, federalHolidays, isBusinessDay, shiftDay } from '@backsight/domain/shared/calendar';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';
import { businessDaysAdded, businessDaysCounted, holidayYears } from './data/holidays.ts';

const weekday = { start: 480, end: 1020 };
const calendar: BusinessCalendar = {
  zone: 'America/Chicago',
  hours: { 1: weekday, 2: weekday, 3: weekday, 4: weekday, 5: weekday, 6: null, 7: null },
  closedDays: [2026, 2027, 2028].flatMap(federalHolidays).map(({ day }) => day),
};

const inLieu = holidayYears.flatMap(({ holidays }) => holidays.filter(({ date, observed }) => date !== observed));

describe('federal holidays', () => {
  it.each(holidayYears)('$name: every legal day ($source; $status)', ({ year, holidays }) => {
    const legal = federalHolidays(year).filter(({ inLieuOf }) => inLieuOf === undefined);
    expect(legal).toEqual(holidays.map(({ name, date }) => ({ name, day: date })));
  });

  it('keeps another day in place of a weekend holiday, and no other (5 U.S.C. 6103 (b); Executive Order 11582; computed)', () => {
    const kept = [2026, 2027, 2028].flatMap(federalHolidays).filter(({ inLieuOf }) => inLieuOf !== undefined);
    expect(kept.map(({ day, inLieuOf }) => ({ observed: day, date: inLieuOf })).sort((a, b) => (a.observed < b.observed ? -1 : 1))).toEqual(
      inLieu.map(({ date, observed }) => ({ observed, date })).sort((a, b) => (a.observed < b.observed ? -1 : 1)),
    );
  });
});

describe('business days', () => {
  it.each(businessDaysAdded)('$name: $day ($source; $status)', ({ from, days, day }) => {
    expect(addBusinessDays(from, days, calendar)).toBe(day);
  });

  it.each(businessDaysCounted)('$name: $count ($source; $status)', ({ after, upTo, count }) => {
    let counted = 0;
    for (let day = shiftDay(after, 1); day <= upTo; day = shiftDay(day, 1)) counted += isBusinessDay(day, calendar) ? 1 : 0;
    expect(counted).toBe(count);
  });
});
