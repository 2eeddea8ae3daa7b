// Readings that no instrument can give are refused; unusual ones are not.
import { describe, expect, it } from 'vitest';
import { isPossible } from '@backsight/domain/sitework/possible';

describe('a reading', () => {
  it.each<[string, string, number, boolean]>([
    ['below absolute zero (SI Brochure, 9th ed., 2.3.1)', 'F', -459.68, false],
    ['at absolute zero', 'F', -459.67, true],
    ['of a very hot flue', 'F', 900, true],
    ['below nothing', 'ppm', -1, false],
    ['of more than the whole', 'ppm', 1_000_001, false],
    ['of wet wood, above its dry weight', '% MC', 120, true],
    ['below a vacuum', 'psi', -15, false],
    ['in a unit that nobody bounded', 'grains', -5, true],
  ])('%s: %s %d', (_, unit, value, possible) => {
    expect(isPossible({ kind: 'reading', unit, value })).toBe(possible);
    expect(isPossible({ kind: 'difference', unit, first: 1, second: value })).toBe(possible);
  });
  it('is all that is judged', () => {
    expect(isPossible({ kind: 'count', count: 0 })).toBe(true);
    expect(isPossible(null)).toBe(true);
  });
});
