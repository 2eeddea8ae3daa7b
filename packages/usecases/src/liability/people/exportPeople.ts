// The pairs or the persons of the funnel as comma-separated text (RFC 4180), by name.
import { csvText, type Cell } from '@backsight/documents/csv';
import type { Reader } from '@backsight/store/database';
import type { SpanAsked } from '../frequency/span.ts';
import { readPeople, type UnitShown } from './readPeople.ts';

const HEADS = [
  'name',
  'jobs',
  'observed',
  'expected',
  'observed over expected',
  '95 % from',
  '95 % to',
  '99.8 % from',
  '99.8 % to',
  'where it lies',
];

export async function exportPeople(reader: Reader, { of, ...asked }: SpanAsked & { of: 'pairs' | 'people' }): Promise<string> {
  const page = await readPeople(reader, asked);
  return csvText([HEADS, ...page[of].units.map(cells)]);
}

const number = (value: number): Cell => Number(value.toFixed(4));

function cells(unit: UnitShown): Cell[] {
  if (unit.state === 'too_few') return [unit.name, unit.jobs, 'too few'];
  const { name, jobs, observed, expected, ratio, limits95, limits998, sentence } = unit;
  const ends = [limits95, limits998].flatMap(({ lower, upper }) => [number(Math.max(0, lower)), number(upper)]);
  return [name, jobs, observed, number(expected), number(ratio), ...ends, sentence];
}
