// Observed and expected callbacks of pairs and persons, from the mix of houses that each inspected.
import { byPerson, expectations, stratumRates, type Cell, type Expectation } from '@backsight/domain/liability/people/expected';
import { mixOf, type MixRow, type Span } from '@backsight/store/liability/mix';
import type { Reader } from '@backsight/store/database';

/** Strata are foundation and age of the house. A job counts once for its pair, and once for each of the two. */
export async function readMix(reader: Reader, span: Span): Promise<{ pairs: Expectation[]; people: Expectation[] }> {
  const cells = (await mixOf(reader, span)).map(cellOf).filter(({ unit }) => unit !== '');
  const rates = stratumRates(cells);
  return { pairs: expectations(cells, rates), people: expectations(byPerson(cells), rates) };
}

function cellOf({ value, jobs, callbacks }: MixRow): Cell {
  const cut = value.indexOf('|');
  return { unit: value.slice(0, cut), stratum: value.slice(cut + 1), jobs, callbacks };
}

/** 'Anna and Ben' for `id+id`. */
export const pairName = (pair: string, people: ReadonlyMap<string, string>): string =>
  pair
    .split('+')
    .map((id) => people.get(id) ?? id)
    .sort((a, b) => a.localeCompare(b, 'en-US'))
    .join(' and ');
