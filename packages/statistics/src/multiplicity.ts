// Several questions asked of the same figures at once: p-values that stay honest.
import { requireProbability } from './interval.ts';

/**
 * Adjusted p-values, in the order given: calling those at or below q a finding keeps the expected share of false ones among them at q.
 * Benjamini & Hochberg, "Controlling the false discovery rate", J. R. Stat. Soc. B 57 (1995) 289-300.
 * @throws RangeError when a p-value is not from 0 to 1
 */
export function benjaminiHochberg(pValues: readonly number[]): number[] {
  for (const p of pValues) if (p !== 0 && p !== 1) requireProbability('p', p);
  const order = pValues.map((_, at) => at).sort((a, b) => pValues[b]! - pValues[a]!);
  const adjusted = Array.from<number>({ length: pValues.length });
  let least = 1;
  for (const [turn, at] of order.entries()) {
    least = Math.min(least, (pValues[at]! * pValues.length) / (pValues.length - turn));
    adjusted[at] = least;
  }
  return adjusted;
}
