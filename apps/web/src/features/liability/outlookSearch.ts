// The address of an outlook: what is asked, the seed, and the instant whose figures it rests on. The same address gives the same again.
import type { Scenario } from '@backsight/contract/liability/outlook';

export const ASKED = [
  'feePercent',
  'jobsPercent',
  'capCents',
  'deductibleCents',
  'premiumCents',
  'stepKey',
  'stepMinutes',
  'fewerLeast',
  'fewerMost',
] as const satisfies readonly (keyof Scenario)[];

export type OutlookSearch = Partial<Record<(typeof ASKED)[number] | 'seed' | 'asOf', string>>;

const NAMES = [...ASKED, 'seed', 'asOf'] as const;

/** Whatever the address says is sent as it is, so that a wrong word is told. */
export function readOutlookSearch(search: Record<string, unknown>): OutlookSearch {
  return Object.fromEntries(
    NAMES.flatMap((name) => {
      const value = search[name];
      return (typeof value === 'string' && value !== '') || typeof value === 'number' ? [[name, String(value)]] : [];
    }),
  );
}

/** The address of what was asked before. */
export const searchOf = (scenario: Scenario, seed: number, asOf: string): OutlookSearch =>
  readOutlookSearch({ ...Object.fromEntries(Object.entries(scenario).filter(([, value]) => value !== null && value !== 0)), seed, asOf });
