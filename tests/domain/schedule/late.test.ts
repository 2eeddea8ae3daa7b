// Tag: time.
// Who can no longer begin as booked when a pair runs late. Places are on a line, one minute of driving for each unit.
import { describe, expect, it } from 'vitest';
import { expectedStarts, type LateVisit } from '@backsight/domain/schedule/late';

const at = (clock: string): Date => new Date(`2026-05-12T${clock}:00Z`);
const visit = (id: string, from: string, to: string, crew: string, lat: number, underWay = false): LateVisit => ({
  id,
  startsAt: at(from),
  endsAt: at(to),
  crew: crew.split(''),
  place: { lat, lon: 0 },
  underWay,
});
const driving = (a: { lat: number }, b: { lat: number }): number => Math.abs(a.lat - b.lat);
const said = (late: LateVisit, minutes: number, behind: LateVisit[]) =>
  expectedStarts(late, minutes, behind, driving).map(
    ({ id, expectedAt, lateMinutes }) => `${id} ${expectedAt.toISOString().slice(11, 16)} +${lateMinutes}`,
  );

describe('running late', () => {
  const first = visit('a', '08:00', '11:00', 'xy', 0, true);
  it.each<[string, LateVisit, number, LateVisit[], string[]]>([
    ['eats the gap before anybody is concerned', first, 30, [visit('b', '12:00', '14:00', 'xy', 30)], []],
    ['moves the next visit by what is missing', first, 45, [visit('b', '12:00', '14:00', 'xy', 30)], ['b 12:15 +15']],
    ['names itself when it has not begun', visit('a', '08:00', '11:00', 'xy', 0), 20, [], ['a 08:20 +20']],
    [
      'hands lateness on to a partner who was not late',
      first,
      60,
      [visit('b', '11:30', '13:00', 'xz', 10), visit('c', '13:05', '14:00', 'z', 10)],
      ['b 12:10 +40', 'c 13:40 +35'],
    ],
    ['leaves others alone', first, 300, [visit('b', '12:00', '14:00', 'vw', 30)], []],
    ['leaves what was before alone', first, 60, [visit('b', '06:00', '07:00', 'xy', 0)], []],
    [
      'is made good in a later gap',
      first,
      60,
      [visit('b', '11:30', '12:00', 'xy', 0), visit('c', '14:00', '15:00', 'xy', 0)],
      ['b 12:00 +30'],
    ],
  ])('%s', (_, late, minutes, behind, expected) => {
    expect(said(late, minutes, [late, ...behind])).toEqual(expected);
  });
});
