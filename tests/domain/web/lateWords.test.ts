// What a caller is told about cancelling: by the same rules as `lateCharge` charges.
import { describe, expect, it } from 'vitest';
import { lateWords } from '../../../apps/web/src/features/booking/lateWords.ts';

describe('what moving and cancelling cost, in words', () => {
  it.each([
    ['nothing is set', { hours: 24, cancelPercent: 0, movePercent: 0 }, 'Cancelling and moving cost nothing.'],
    [
      'percents',
      { hours: 24, cancelPercent: 50, movePercent: 0 },
      'Nothing until 24 hours before the start. Later, cancelling costs 50% of the fee, moving nothing.',
    ],
    [
      'an amount goes before the percent',
      { hours: 48, cancelPercent: 50, movePercent: 10, moveCents: 7_500 },
      'Nothing until 48 hours before the start. Later, cancelling costs 50% of the fee, moving $75.00.',
    ],
    [
      'the whole fee near the start',
      { hours: 48, fullHours: 12, cancelPercent: 50, movePercent: 25 },
      'Nothing until 48 hours before the start. Later, cancelling costs 50% of the fee, moving 25% of the fee. Less than 12 hours before, or after the start, the whole fee is due.',
    ],
    [
      'the whole fee alone',
      { hours: 24, fullHours: 24, cancelPercent: 50, movePercent: 0 },
      'Nothing until 24 hours before the start. Less than 24 hours before, or after the start, the whole fee is due.',
    ],
  ])('%s', (_name, late, words) => expect(lateWords(late)).toBe(words));
});
