// Office hours as they are stored: one shape, checked, and read into the calendar.
import { describe, expect, it } from 'vitest';
import { openingHours, readWeekHours } from '@backsight/domain/firm/stored';

const WEEK = { 1: [480, 1020], 2: [480, 1020], 3: [480, 1020], 4: [480, 1020], 5: [480, 960], 6: null, 7: null };

describe('office hours', () => {
  it('are read as they were stored, and into the calendar', () => {
    expect(readWeekHours(WEEK)).toEqual(WEEK);
    expect(openingHours(WEEK)).toMatchObject({ 1: { start: 480, end: 1020 }, 5: { start: 480, end: 960 }, 6: null, 7: null });
  });
  it.each([
    [{ ...WEEK, 7: undefined }],
    [{ ...WEEK, 1: { start: 480, end: 1020 } }],
    [{ ...WEEK, 1: [480, 1441] }],
    [{ ...WEEK, 8: null }],
    [null],
  ])('%j is refused', (stored) => {
    expect(() => openingHours(stored)).toThrow();
  });
});
