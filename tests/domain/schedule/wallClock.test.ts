// Tag: time.
// Wall clock and instants on days with clock changes. Rules of America/Chicago: Energy Policy Act of 2005, section 110 (second Sunday of March, first of November, 2 AM).
import { describe, expect, it } from 'vitest';
import { instantOf, offsetsOf, wallTime } from '@backsight/domain/schedule/wallClock';

const ZONE = 'America/Chicago';

describe('instantOf', () => {
  it.each([
    ['2026-07-01', 540, '2026-07-01T14:00:00.000Z'],
    ['2026-12-01', 540, '2026-12-01T15:00:00.000Z'],
    ['2026-03-08', 119, '2026-03-08T07:59:00.000Z'],
    ['2026-03-08', 180, '2026-03-08T08:00:00.000Z'],
    ['2026-11-01', 90, '2026-11-01T06:30:00.000Z'],
    ['2026-11-01', 120, '2026-11-01T08:00:00.000Z'],
  ])('%s minute %i is %s', (day, minute, expected) => {
    const at = instantOf(day, minute, ZONE);
    expect(at.ok && at.value.toISOString()).toBe(expected);
    expect(at.ok && wallTime(at.value, ZONE)).toEqual({ day, minute });
  });
  it('refuses a minute that the clock skips', () =>
    expect(instantOf('2026-03-08', 150, ZONE)).toMatchObject({ code: 'start-not-real', about: { time: '02:30' } }));
  it('gives the offset of the working day, not of the night before the change', () =>
    expect(offsetsOf(['2026-03-07', '2026-03-08', '2026-11-01'], ZONE)).toEqual({
      '2026-03-07': -360,
      '2026-03-08': -300,
      '2026-11-01': -360,
    }));
});
