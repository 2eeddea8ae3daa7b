// Questions that make no sense, and firms that cannot answer: a sentence or the right answer, never an exception or a start that is none.
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { explainDay } from '@backsight/scheduling/explainDay';
import { findStarts } from '@backsight/scheduling/findStarts';
import type { StartQuery, World } from '@backsight/scheduling/world';
import { BIRCHMERE, MON, person, query, TUE, visit, WED, world } from './cast.ts';
import { allStarts } from './oracle.ts';

const lone = world({ people: [person('ann'), person('ben', { base: { lat: 0, lon: 0 } })] });
const trainees = world({ people: [person('ann', { mayLead: false }), person('ben', { mayLead: false })] });

type Case = { what: string; given?: World; ask: Partial<StartQuery>; says: string };
const cases: Case[] = [
  { what: 'a day in the past', ask: { days: [MON], notBefore: { day: TUE, minute: 600 } }, says: 'Mon, Jul 13 is past.' },
  { what: 'no duration', ask: { durationMinutes: 0 }, says: 'The visit must take between 1 min and 12 h.' },
  { what: 'a negative duration', ask: { durationMinutes: -60 }, says: 'The visit must take between' },
  { what: 'half a minute', ask: { durationMinutes: 60.5 }, says: 'The visit must take between' },
  { what: 'a huge duration', ask: { durationMinutes: 1e9 }, says: 'The visit must take between' },
  { what: 'no number as duration', ask: { durationMinutes: Number.NaN }, says: 'The visit must take between' },
  { what: 'longer than the hours asked', ask: { durationMinutes: 600, earliest: 600, latestEnd: 720 }, says: 'does not fit between' },
  { what: 'a window that ends before it begins', ask: { earliest: 900, latestEnd: 600 }, says: 'does not fit between' },
  { what: 'no place', ask: { place: { lat: Number.NaN, lon: Number.NaN } }, says: 'The property has no place on the map yet.' },
  { what: 'the place 0, 0', ask: { place: { lat: 0, lon: 0 } }, says: 'The property has no place on the map yet.' },
  { what: 'a place beyond the poles', ask: { place: { lat: 91, lon: 0 } }, says: 'The property has no place on the map yet.' },
  { what: 'an empty firm', given: world({ people: [] }), ask: {}, says: 'The firm has nobody to send yet.' },
  { what: 'nobody who may go first', given: trainees, ask: {}, says: 'Nobody who may go first is free.' },
  { what: 'a person without a base', given: lone, ask: {}, says: '1 may not be sent' },
  { what: 'a wanted person without a base', given: lone, ask: { only: ['ann', 'ben'] }, says: 'Ben Cole has no home base on the map' },
  {
    what: 'a service that no provider does',
    ask: { outside: [{ service: 'Septic', providers: [] }] },
    says: 'Septic: no outside provider is on file.',
  },
];

describe('bad input', () => {
  it.each(cases)('$what is told', ({ given = world(), ask, says }) => {
    const { options, blockedDays } = findStarts(given, query(ask));
    expect(options).toEqual([]);
    expect(blockedDays[0]!.reasons.join(' ')).toContain(says);
    expect(explainDay(given, query(ask), query(ask).days[0]!).reasons.join(' ')).toContain(says);
  });

  it('no days, no answer', () => expect(findStarts(world(), query({ days: [] }))).toEqual({ options: [], blockedDays: [] }));

  it('a base that is no place is refused at the booking too, and counts for nobody else', () => {
    const given = world({ people: [person('ann'), person('ben'), person('cal', { base: { lat: Number.NaN, lon: Number.NaN } })] });
    expect(findStarts(given, query()).options.every(({ first, second }) => first !== 'cal' && second !== 'cal')).toBe(true);
    expect(checkStart(given, query(), { day: TUE, start: 540, first: 'ann', second: 'cal' }).map(({ code }) => code)).toContain('base');
  });

  it('500 visits on one day are searched like any other, as brute force finds them', () => {
    const people = Array.from({ length: 8 }, (_, n) => person(`p${n}`));
    const others = Array.from({ length: 490 }, (_, n) => visit(`o${n}`, [`x${2 * n}`, `x${2 * n + 1}`], 480, 1020));
    const ours = Array.from({ length: 10 }, (_, n) => visit(`v${n}`, [`p${n % 4}`, `q${n}`], 480 + n * 15, 495 + n * 15));
    const given = world({ people, busy: [...others, ...ours] });
    const { options } = findStarts(given, query({ limit: 1000 }));
    expect(options.length).toBeGreaterThan(0);
    expect(Math.min(...options.map(({ score }) => score))).toBe(Math.min(...allStarts(given, query()).map(({ score }) => score)));
  });

  it('fully booked for 500 visits has a reason', () => {
    const people = Array.from({ length: 20 }, (_, n) => person(`p${String(n).padStart(2, '0')}`));
    const busy = Array.from({ length: 500 }, (_, n) =>
      visit(`v${n}`, [people[n % 20]!.id, people[(n + 1) % 20]!.id], 480 + (n % 50) * 10, 540 + (n % 50) * 10),
    );
    const { options, blockedDays } = findStarts(world({ people, busy }), query({ place: BIRCHMERE, days: [TUE, WED] }));
    expect(options.every(({ day }) => day === WED)).toBe(true);
    expect(blockedDays.map(({ day }) => day)).toEqual([TUE]);
    expect(blockedDays[0]!.reasons[0]).toMatch(/booked all day|no gap/);
  });
});
