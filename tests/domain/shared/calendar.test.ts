// Tag: time.
// Business days of a firm's own hours, and the edges of the holiday list. The published dates are checked in tests/published.
import { describe, expect, it } from 'vitest';
import { addBusinessDays, federalHolidays, isBusinessDay, nextBusinessDay, openingHours } from '@backsight/domain/shared/calendar';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';

const nine = { start: 540, end: 1020 };
const closedDays = [2026, 2027, 2028].flatMap((year) => federalHolidays(year).map(({ day }) => day));
const office: BusinessCalendar = {
  zone: 'America/Chicago',
  hours: { 1: nine, 2: nine, 3: nine, 4: nine, 5: nine, 6: null, 7: null },
  closedDays,
};

describe('federal holidays', () => {
  it("puts the day kept for New Year's Day 2028 (a Saturday) into 2027", () => {
    expect(federalHolidays(2027).at(-1)).toEqual({ day: '2027-12-31', name: "New Year's Day (observed)", inLieuOf: '2028-01-01' });
    expect(federalHolidays(2028)[0]).toEqual({ day: '2028-01-01', name: "New Year's Day" });
    expect(federalHolidays(2028)[1]?.day).toBe('2028-01-17');
  });
  it('keeps Veterans Day 2028 (a Saturday) on the Friday before', () => {
    expect(federalHolidays(2028)).toContainEqual({ day: '2028-11-10', name: 'Veterans Day (observed)', inLieuOf: '2028-11-11' });
  });
  it.each([2020, 2026.5, Number.NaN])('does not answer for %d', (year) => expect(() => federalHolidays(year)).toThrow(RangeError));
});

describe('business days', () => {
  it('answers the day itself for 0, and starts well on a weekend', () => {
    expect(addBusinessDays('2026-07-04', 0, office)).toBe('2026-07-04');
    expect(addBusinessDays('2026-07-04', 1, office)).toBe('2026-07-06');
    expect(nextBusinessDay('2026-07-05', office, -1)).toBe('2026-07-02');
  });
  it('uses the hours of the firm: open on Saturday, closed on Monday', () => {
    const weekend: BusinessCalendar = { ...office, hours: { ...office.hours, 1: null, 6: { start: 480, end: 720 } }, closedDays: [] };
    expect([isBusinessDay('2026-06-06', weekend), isBusinessDay('2026-06-08', weekend)]).toEqual([true, false]);
    expect(openingHours('2026-06-06', weekend)).toEqual({ start: 480, end: 720 });
  });
  it('refuses a calendar without business days, broken hours, broken days and broken counts', () => {
    const never: BusinessCalendar = { ...office, hours: { 1: null, 2: null, 3: null, 4: null, 5: null, 6: null, 7: null } };
    expect(() => addBusinessDays('2026-07-01', 1, never)).toThrow(/no business day/);
    expect(() => isBusinessDay('2026-07-01', { ...office, hours: { ...office.hours, 3: { start: 600, end: 600 } } })).toThrow(
      /Opening hours/,
    );
    expect(() => isBusinessDay('2026-02-30', office)).toThrow(/not a day/);
    expect(() => addBusinessDays('2026-07-01', 1.5, office)).toThrow(RangeError);
  });
});
