// Tag: time.
// Deadlines: opening hours, holidays, weekends, pauses, and the two days on which the clock changes.
// The clock changes on 2026-03-08 and 2026-11-01 (15 U.S.C. 260a; IANA time zone database); results are counted by hand.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';
import { deadline } from '@backsight/domain/shared/deadline';
import type { DeadlinePolicy, Pause } from '@backsight/domain/shared/deadline';

const eight = { start: 480, end: 1020 };
const office: BusinessCalendar = {
  zone: 'America/Chicago',
  hours: { 1: eight, 2: eight, 3: eight, 4: eight, 5: eight, 6: null, 7: null },
  closedDays: ['2026-07-03', '2026-11-26', '2026-12-25'],
};
const always: BusinessCalendar = {
  ...office,
  hours: {
    1: { start: 0, end: 1440 },
    2: { start: 0, end: 1440 },
    3: { start: 0, end: 1440 },
    4: { start: 0, end: 1440 },
    5: { start: 0, end: 1440 },
    6: { start: 0, end: 1440 },
    7: { start: 0, end: 1440 },
  },
  closedDays: [],
};
const minutes = (amount: number): DeadlinePolicy => ({ amount, unit: 'businessMinutes' });
const businessDays = (amount: number): DeadlinePolicy => ({ amount, unit: 'businessDays' });
const days = (amount: number): DeadlinePolicy => ({ amount, unit: 'days' });

/** Compared as local times with their offset, which a reader can check against a wall calendar. */
const same = (actual: string | null, expected: string): void => {
  expect(actual).toMatch(/Z$/);
  expect(actual).toBe(new Date(expected).toISOString());
};

type Row = [name: string, policy: DeadlinePolicy, start: string, pauses: Pause[], expected: string];

describe('business minutes', () => {
  const rows: Row[] = [
    ['inside one day', minutes(90), '2026-06-02T09:00:00-05:00', [], '2026-06-02T10:30:00-05:00'],
    ['to the very close', minutes(540), '2026-06-02T08:00:00-05:00', [], '2026-06-02T17:00:00-05:00'],
    ['one minute over the close', minutes(541), '2026-06-02T08:00:00-05:00', [], '2026-06-03T08:01:00-05:00'],
    ['before opening', minutes(60), '2026-06-02T05:00:00-05:00', [], '2026-06-02T09:00:00-05:00'],
    ['after closing', minutes(60), '2026-06-02T19:00:00-05:00', [], '2026-06-03T09:00:00-05:00'],
    ['Friday into Monday', minutes(120), '2026-06-05T16:00:00-05:00', [], '2026-06-08T09:00:00-05:00'],
    ['start on Saturday', minutes(60), '2026-06-06T12:00:00-05:00', [], '2026-06-08T09:00:00-05:00'],
    ['over a long weekend with a holiday', minutes(120), '2026-07-02T16:00:00-05:00', [], '2026-07-06T09:00:00-05:00'],
    ['start in another zone', minutes(60), '2026-06-02T16:00:00+02:00', [], '2026-06-02T10:00:00-05:00'],
    ['nothing left to wait', minutes(0), '2026-06-06T12:00:00-05:00', [], '2026-06-06T12:00:00-05:00'],
    [
      'pause in the middle',
      minutes(90),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-02T09:30:00-05:00', to: '2026-06-02T11:00:00-05:00' }],
      '2026-06-02T12:00:00-05:00',
    ],
    [
      'pause over night counts open time only',
      minutes(90),
      '2026-06-02T16:00:00-05:00',
      [{ from: '2026-06-02T16:30:00-05:00', to: '2026-06-03T09:00:00-05:00' }],
      '2026-06-03T10:00:00-05:00',
    ],
    [
      'overlapping pauses count once',
      minutes(60),
      '2026-06-02T09:00:00-05:00',
      [
        { from: '2026-06-02T09:30:00-05:00', to: '2026-06-02T10:30:00-05:00' },
        { from: '2026-06-02T10:00:00-05:00', to: '2026-06-02T11:00:00-05:00' },
      ],
      '2026-06-02T11:30:00-05:00',
    ],
    [
      'pause before the start',
      minutes(60),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-01T09:00:00-05:00', to: '2026-06-02T08:30:00-05:00' }],
      '2026-06-02T10:00:00-05:00',
    ],
    [
      'pause that begins when it is due',
      minutes(60),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-02T10:00:00-05:00', to: null }],
      '2026-06-02T10:00:00-05:00',
    ],
    ['over the weekend of the spring change', minutes(120), '2026-03-06T16:00:00-06:00', [], '2026-03-09T09:00:00-05:00'],
    ['over the weekend of the autumn change', minutes(120), '2026-10-30T16:00:00-05:00', [], '2026-11-02T09:00:00-06:00'],
  ];
  it.each(rows)('%s', (_name, policy, start, pauses, expected) => same(deadline(policy, start, pauses, office), expected));

  it('counts minutes that really pass when the office is open around the clock', () => {
    same(deadline(minutes(120), '2026-03-08T01:00:00-06:00', [], always), '2026-03-08T04:00:00-05:00');
    same(deadline(minutes(240), '2026-11-01T00:30:00-05:00', [], always), '2026-11-01T03:30:00-06:00');
    same(deadline(minutes(1440), '2026-03-08T00:00:00-06:00', [], always), '2026-03-09T01:00:00-05:00');
  });
  it('opens and closes by the wall clock on the day of the change', () => {
    const sundays: BusinessCalendar = { ...office, hours: { ...office.hours, 7: eight } };
    same(deadline(minutes(60), '2026-03-08T00:30:00-06:00', [], sundays), '2026-03-08T09:00:00-05:00');
    same(deadline(minutes(60), '2026-11-01T00:30:00-05:00', [], sundays), '2026-11-01T09:00:00-06:00');
    same(deadline(businessDays(0), '2026-03-08T00:30:00-06:00', [], sundays), '2026-03-08T17:00:00-05:00');
    same(deadline(businessDays(0), '2026-11-01T00:30:00-05:00', [], sundays), '2026-11-01T17:00:00-06:00');
  });
});

describe('business days', () => {
  const rows: Row[] = [
    ['the next day at closing time', businessDays(1), '2026-06-02T09:00:00-05:00', [], '2026-06-03T17:00:00-05:00'],
    ['start late in the evening', businessDays(1), '2026-06-02T23:30:00-05:00', [], '2026-06-03T17:00:00-05:00'],
    ['start on Sunday', businessDays(1), '2026-06-07T12:00:00-05:00', [], '2026-06-08T17:00:00-05:00'],
    ['over a holiday and a weekend', businessDays(3), '2026-07-01T10:00:00-05:00', [], '2026-07-07T17:00:00-05:00'],
    ['fifteen', businessDays(15), '2026-06-01T10:00:00-05:00', [], '2026-06-22T17:00:00-05:00'],
    ['same day', businessDays(0), '2026-06-02T09:00:00-05:00', [], '2026-06-02T17:00:00-05:00'],
    ['same day, asked after closing', businessDays(0), '2026-06-02T18:00:00-05:00', [], '2026-06-03T17:00:00-05:00'],
    ['same day, asked on Saturday', businessDays(0), '2026-06-06T12:00:00-05:00', [], '2026-06-08T17:00:00-05:00'],
    [
      'a pause inside a day shifts nothing',
      businessDays(2),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-03T09:00:00-05:00', to: '2026-06-03T12:00:00-05:00' }],
      '2026-06-04T17:00:00-05:00',
    ],
    [
      'a pause over two closings shifts two days',
      businessDays(2),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-03T09:00:00-05:00', to: '2026-06-05T09:00:00-05:00' }],
      '2026-06-08T17:00:00-05:00',
    ],
    [
      'an open pause after it is due',
      businessDays(1),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-04T09:00:00-05:00', to: null }],
      '2026-06-03T17:00:00-05:00',
    ],
    ['over the spring change', businessDays(1), '2026-03-06T09:00:00-06:00', [], '2026-03-09T17:00:00-05:00'],
    ['over the autumn change', businessDays(1), '2026-10-30T09:00:00-05:00', [], '2026-11-02T17:00:00-06:00'],
    ['the day belongs to the zone of the firm', businessDays(1), '2026-06-03T03:00:00Z', [], '2026-06-03T17:00:00-05:00'],
  ];
  it.each(rows)('%s', (_name, policy, start, pauses, expected) => same(deadline(policy, start, pauses, office), expected));
});

describe('days', () => {
  const rows: Row[] = [
    ['ten days, to the end of the last', days(10), '2026-06-02T09:00:00-05:00', [], '2026-06-12T23:59:59.999-05:00'],
    ['may end on a Sunday', days(1), '2026-06-06T09:00:00-05:00', [], '2026-06-07T23:59:59.999-05:00'],
    ['same day', days(0), '2026-06-06T09:00:00-05:00', [], '2026-06-06T23:59:59.999-05:00'],
    ['into the spring change', days(1), '2026-03-07T09:00:00-06:00', [], '2026-03-08T23:59:59.999-05:00'],
    ['from the spring change', days(1), '2026-03-08T01:30:00-06:00', [], '2026-03-09T23:59:59.999-05:00'],
    ['into the autumn change', days(1), '2026-10-31T23:30:00-05:00', [], '2026-11-01T23:59:59.999-06:00'],
    ['over both, a year', days(365), '2026-03-01T12:00:00-06:00', [], '2027-03-01T23:59:59.999-06:00'],
    [
      'a pause over three midnights',
      days(2),
      '2026-06-02T09:00:00-05:00',
      [{ from: '2026-06-03T09:00:00-05:00', to: '2026-06-06T09:00:00-05:00' }],
      '2026-06-07T23:59:59.999-05:00',
    ],
  ];
  it.each(rows)('%s', (_name, policy, start, pauses, expected) => same(deadline(policy, start, pauses, office), expected));
});

describe('refuses and stays quiet', () => {
  const start = '2026-06-02T09:00:00-05:00';
  it.each([minutes(60), businessDays(1), days(1)])('has no deadline while the clock is stopped: %j', (policy) => {
    expect(deadline(policy, start, [{ from: '2026-06-02T09:30:00-05:00', to: null }], office)).toBeNull();
  });
  it.each([
    ['negative', minutes(-1), start, [], office],
    ['broken', days(1.5), start, [], office],
    ['no offset', days(1), '2026-06-02T09:00:00', [], office],
    ['no instant', days(1), 'tomorrow', [], office],
    ['pause backwards', days(1), start, [{ from: '2026-06-03T09:00:00Z', to: '2026-06-02T09:00:00Z' }], office],
    ['no zone', days(1), start, [], { ...office, zone: 'Lake/Nowhere' }],
    ['never open', minutes(5), start, [], { ...office, hours: { 1: null, 2: null, 3: null, 4: null, 5: null, 6: null, 7: null } }],
  ] as [string, DeadlinePolicy, string, Pause[], BusinessCalendar][])('refuses: %s', (_name, policy, from, pauses, calendar) => {
    expect(() => deadline(policy, from, pauses, calendar)).toThrow(RangeError);
  });
  it('is never before the start, and a longer term or a longer pause never comes earlier', () => {
    const instant = fc
      .integer({ min: Date.parse('2026-02-20T00:00:00Z'), max: Date.parse('2026-12-20T00:00:00Z') })
      .map((at) => new Date(at).toISOString());
    const hours = fc.integer({ min: 0, max: 100 });
    fc.assert(
      fc.property(
        fc.constantFrom('businessMinutes', 'businessDays', 'days' as const),
        fc.nat(20),
        instant,
        hours,
        hours,
        (unit, amount, from, wait, length) => {
          const policy = { amount: unit === 'businessMinutes' ? amount * 97 : amount, unit } as DeadlinePolicy;
          const at = (h: number): string => new Date(Date.parse(from) + h * 3_600_000).toISOString();
          const plain = deadline(policy, from, [], office)!;
          const paused = (h: number): string => deadline(policy, from, [{ from: at(wait), to: at(wait + h) }], office)!;
          expect(plain >= from).toBe(true);
          expect(deadline({ ...policy, amount: policy.amount + 1 }, from, [], office)! >= plain).toBe(true);
          expect(paused(length) >= plain && paused(length + 5) >= paused(length)).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });
});
