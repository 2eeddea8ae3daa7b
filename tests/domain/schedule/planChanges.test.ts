// What a plan changes, counted as people feel it.
import { describe, expect, it } from 'vitest';
import { changesOf, differenceOf } from '../../../apps/web/src/features/plans/changes.ts';

const at = (first: string, second: string | null, start = 540, day = '2026-05-12') => ({ day, start, first, second });
const NOW = at('ann', 'ben');

describe('what a plan changes', () => {
  it.each([
    ['the same two, the other goes first', NOW, at('ben', 'ann'), { starts: 0, people: 0, swaps: 1 }],
    ['a new second', NOW, at('ann', 'cal'), { starts: 0, people: 1, swaps: 0 }],
    ['a new person, and the one who stays goes first now', NOW, at('ben', 'cal'), { starts: 0, people: 1, swaps: 0 }],
    ['somebody less', NOW, at('ann', null), { starts: 0, people: 1, swaps: 0 }],
    ['another start', NOW, at('ann', 'ben', 555), { starts: 1, people: 0, swaps: 0 }],
    ['another day at the same hour', NOW, at('ann', 'ben', 540, '2026-05-13'), { starts: 1, people: 0, swaps: 0 }],
    ['another start and the other first', NOW, at('ben', 'ann', 555), { starts: 1, people: 0, swaps: 1 }],
    ['another start and other people', NOW, at('cal', 'dot', 555), { starts: 1, people: 1, swaps: 0 }],
    ['a visit left out', NOW, null, { starts: 0, people: 0, swaps: 0 }],
    ['a visit placed for the first time', null, NOW, { starts: 1, people: 1, swaps: 0 }],
  ])('%s', (_, before, after, changes) => {
    expect(changesOf([{ before, after }])).toEqual(changes);
  });
});

describe('a visit before and after', () => {
  const name = (id: string): string => id.toUpperCase();
  it.each([
    ['earlier', NOW, at('ann', 'ben', 480), ['1 h earlier']],
    ['later with somebody else', NOW, at('ann', 'cal', 555), ['15 min later', 'CAL instead of BEN']],
    ['another day', NOW, at('ann', 'ben', 540, '2026-05-13'), ['another day, same hour']],
    [
      'another day and hour, two others',
      NOW,
      at('cal', 'dot', 600, '2026-05-13'),
      ['another day', 'CAL instead of ANN', 'DOT instead of BEN'],
    ],
    ['the other goes first', NOW, at('ben', 'ann'), ['BEN goes first']],
    ['alone', NOW, at('ann', null), ['without BEN']],
    ['no longer alone', at('ann', null), NOW, ['BEN comes too']],
    ['left out', NOW, null, ['finds no place and is taken off']],
    ['placed', null, NOW, ['finds a place']],
  ])('%s', (_, before, after, changes) => {
    expect(differenceOf({ before, after }, name).changes).toEqual(changes);
  });
  it('says both in words', () => {
    expect(differenceOf({ before: NOW, after: at('ann', null, 805) }, name)).toMatchObject({
      before: 'Tue, May 12, 9:00 AM; ANN and BEN',
      after: 'Tue, May 12, 1:25 PM; ANN',
    });
  });
});
