// What a plan changes, counted as people feel it.
import { describe, expect, it } from 'vitest';
import { changesOf } from '../../../apps/web/src/features/plans/changes.ts';

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
