// Who could bring another piece when one failed on site.
import { describe, expect, it } from 'vitest';
import { proposeSwaps, type SwapAsk } from '@backsight/scheduling/swaps';
import { estimatedTravel } from '@backsight/scheduling/travel';
import type { World } from '@backsight/scheduling/world';
import { BIRCHMERE, person, PORT_ANSEL, TUE, visit, world } from './cast.ts';

const ask: SwapAsk = { day: TUE, minute: 600, pool: 'meter', place: BIRCHMERE, crew: ['ann', 'ben'], store: BIRCHMERE };
const pool = (count: number) => [{ kind: 'meter', count, outOfService: [] }];
const kit = ['meter'];
const crew = [visit('v1', ['ann', 'ben'], 540, 720, { kit })];
const propose = (change: Partial<World>, more: Partial<SwapAsk> = {}) =>
  proposeSwaps(
    world({ people: ['ann', 'ben', 'cal', 'dot'].map((id) => person(id)), busy: crew, kit: pool(2), ...change }),
    { ...ask, ...more },
    estimatedTravel,
  ).map(({ from, personIds, minutes, freeFrom, freeUntil }) => `${from} ${personIds.join('+')} ${minutes} ${freeFrom} ${freeUntil}`);

describe('a swap', () => {
  it('is a spare piece, by whoever is at work and at no visit', () => {
    expect(propose({})).toEqual(['spare cal 0 600 null', 'spare dot 0 600 null']);
    expect(propose({ people: [person('ann'), person('ben'), person('cal', { base: PORT_ANSEL })] })).toEqual(['spare cal 26 600 null']);
  });
  it('is not a spare piece when the others carry all that are in service', () => {
    const busy = [...crew, visit('v2', ['cal', 'dot'], 540, 700, { kit, place: PORT_ANSEL })];
    expect(propose({ busy, kit: pool(1) })).toEqual(['carried cal+dot 26 700 null']);
  });
  it('is carried by a crew that needs it no more, or not until later', () => {
    const done = visit('v2', ['cal', 'dot'], 480, 590, { kit, place: PORT_ANSEL });
    expect(propose({ busy: [...crew, done], kit: pool(1) })).toEqual(['carried cal+dot 26 600 null']);
    const later = visit('v3', ['cal', 'dot'], 800, 900, { kit, place: PORT_ANSEL });
    expect(propose({ busy: [...crew, done, later], kit: pool(1) })).toEqual(['carried cal+dot 26 600 800']);
  });
  it('is nobody who is away, off shift or of the same crew, and nothing of another kind or day', () => {
    const away = person('cal', { off: [{ day: TUE, start: 540, end: 660, why: 'x' }] });
    const late = person('dot', { shifts: [{ day: TUE, start: 720, end: 1020 }] });
    expect(propose({ people: [person('ann'), person('ben'), away, late] })).toEqual([]);
    const other = visit('v2', ['cal', 'dot'], 540, 700, { kit: ['ladder'] });
    expect(propose({ busy: [...crew, other], kit: pool(1) })).toEqual([]);
  });
});
