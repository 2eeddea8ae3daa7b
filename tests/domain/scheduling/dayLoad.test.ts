// What a day asks of a person, before and after a move.
import { expect, it } from 'vitest';
import { dayLoad } from '@backsight/scheduling/dayLoad';
import type { Travel } from '@backsight/scheduling/travel';
import type { Busy, PersonInput, World } from '@backsight/scheduling/world';

const DAY = '2026-05-12';
const at = (lat: number) => ({ lat, lon: 0 });
/** A minute for each degree of latitude. */
const travel = { minutes: (a, b) => Math.abs(a.lat - b.lat), sourceOf: () => 'estimate' } as Travel;
const person = { id: 'ann', base: at(0), shifts: [{ day: DAY, start: 480, end: 1020 }] } as PersonInput;
const visit = (start: number, end: number, lat: number, more: Partial<Busy> = {}): Busy => ({
  id: String(start),
  personIds: ['ann', 'ben'],
  day: DAY,
  start,
  end,
  place: at(lat),
  kit: [],
  ...more,
});
const load = (...busy: Busy[]) => dayLoad({ busy } as unknown as World, person, DAY, travel);

it.each([
  ['nothing', [], { visits: 0, driving: 0, waiting: 0, outside: 0 }],
  ['one visit', [visit(540, 720, 20)], { visits: 1, driving: 40, waiting: 0, outside: 0 }],
  ['two with a gap, in any order', [visit(800, 900, 50), visit(540, 720, 20)], { visits: 2, driving: 100, waiting: 50, outside: 0 }],
  ['out before and home after the hours', [visit(490, 1010, 20)], { visits: 1, driving: 40, waiting: 0, outside: 20 }],
  [
    'somebody else’s and another day’s',
    [visit(540, 720, 20, { personIds: ['ben'] }), visit(540, 720, 9, { day: '2026-05-13' })],
    { visits: 0, driving: 0, waiting: 0, outside: 0 },
  ],
  [
    'along as an observer',
    [visit(540, 720, 20, { personIds: ['ben'], observerIds: ['ann'] })],
    { visits: 1, driving: 40, waiting: 0, outside: 0 },
  ],
])('%s', (_, busy, wanted) => {
  expect(load(...busy)).toEqual(wanted);
});

it('counts all of it on a day without hours', () => {
  expect(dayLoad({ busy: [visit(540, 720, 20)] } as unknown as World, { ...person, shifts: [] }, DAY, travel).outside).toBe(220);
});
