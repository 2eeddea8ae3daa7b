// Observed and expected callbacks of pairs and persons, from the mix of houses that each inspected.
import { byPerson, expectations, stratumRates, type Cell, type Expectation } from '@backsight/domain/liability/people/expected';
import { sumsByValue, type Span, type ValueSum } from '@backsight/store/liability/spans';
import type { Reader } from '@backsight/store/database';

/** Strata are foundation and age of the house. A job counts once for its pair, and once for each of the two. */
export async function readMix(reader: Reader, span: Span): Promise<{ pairs: Expectation[]; people: Expectation[] }> {
  const cells = cellsOf(await sumsByValue(reader, { ...span, groupings: ['pair_mix'], measures: ['jobs', 'callbacks'] }));
  const rates = stratumRates(cells);
  return { pairs: expectations(cells, rates), people: expectations(byPerson(cells), rates) };
}

/** What was inspected by nobody has no place among people. */
function cellsOf(sums: readonly ValueSum[]): Cell[] {
  const cells = new Map<string, Cell>();
  for (const { value, measure, amount } of sums) {
    const cut = value.indexOf('|');
    const cell = cells.get(value) ?? { unit: value.slice(0, cut), stratum: value.slice(cut + 1), jobs: 0, callbacks: 0 };
    cells.set(value, { ...cell, [measure]: amount });
  }
  return [...cells.values()].filter(({ unit }) => unit !== '');
}

/** 'Anna and Ben' for `id+id`. */
export const pairName = (pair: string, people: ReadonlyMap<string, string>): string =>
  pair
    .split('+')
    .map((id) => people.get(id) ?? id)
    .sort((a, b) => a.localeCompare(b, 'en-US'))
    .join(' and ');
