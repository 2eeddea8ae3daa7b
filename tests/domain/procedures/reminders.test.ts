// Tag: time.
// When an inspector is reminded to acknowledge: on the working day before the last, and once it is over.
import { describe, expect, it } from 'vitest';
import { reminderDue } from '@backsight/domain/procedures/reminders';
import type { BusinessCalendar, OpeningHours } from '@backsight/domain/shared/calendar';

const open: OpeningHours = { start: 8 * 60, end: 17 * 60 };
const calendar: BusinessCalendar = {
  zone: 'America/Chicago',
  hours: { 1: open, 2: open, 3: open, 4: open, 5: open, 6: null, 7: null },
  closedDays: ['2026-05-25'],
};

describe('a reminder', () => {
  it.each([
    ['two working days before', '2026-05-14T22:00:00Z', '2026-05-12T22:00:00Z', null],
    ['the morning before, office not open yet', '2026-05-14T22:00:00Z', '2026-05-13T12:59:00Z', null],
    ['the morning before', '2026-05-14T22:00:00Z', '2026-05-13T13:00:00Z', 'before'],
    ['the last minute', '2026-05-14T22:00:00Z', '2026-05-14T22:00:00Z', 'before'],
    ['too late', '2026-05-14T22:00:00Z', '2026-05-14T22:00:01Z', 'over'],
    ['over a weekend and a holiday: the Friday', '2026-05-26T22:00:00Z', '2026-05-22T13:00:00Z', 'before'],
    ['over a weekend and a holiday: not the Thursday', '2026-05-26T22:00:00Z', '2026-05-21T22:00:00Z', null],
  ])('%s', (_name, by, now, stage) => expect(reminderDue(by, now, calendar)).toBe(stage));
});
