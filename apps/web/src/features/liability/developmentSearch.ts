// The address of the development: what is counted, by which period, as of which day, by which method.
import type { DevelopmentSearch } from '../../api/development.ts';

const NAMES = ['by', 'of', 'asOf', 'method', 'expected'] as const;

/** Whatever the address says is sent as it is, so that a wrong word is told. */
export function readDevelopmentSearch(raw: Record<string, unknown>): DevelopmentSearch {
  return Object.fromEntries(
    NAMES.flatMap((name) => {
      const value = raw[name];
      return (typeof value === 'string' && value !== '') || typeof value === 'number' ? [[name, String(value).slice(0, 40)]] : [];
    }),
  ) as DevelopmentSearch;
}
