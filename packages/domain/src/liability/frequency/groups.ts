// Groups that are compared: what they are called, in which order they stand, and each one's sentence.
import { FACTS } from '../../shared/facts.ts';

export const COMPARED = ['step', 'system', 'foundation', 'age', 'service', 'season', 'rain', 'pair'] as const;
export type ComparedBy = (typeof COMPARED)[number];

/** How a group is called, and what its rate counts. `others`: what it is held against. */
export const GROUP_WORDS: Record<ComparedBy, { title: string; one: string; unit: string; count: string; per: number; others: string }> = {
  step: { title: 'Step', one: 'Step', unit: 'times it applied', count: 'failures', per: 1000, others: 'other steps' },
  system: { title: 'System', one: 'System', unit: 'jobs', count: 'callbacks', per: 100, others: 'other systems on average' },
  foundation: { title: 'Foundation', one: 'Foundation', unit: 'jobs', count: 'callbacks', per: 100, others: 'others' },
  age: { title: 'Age of the house', one: 'Age', unit: 'jobs', count: 'callbacks', per: 100, others: 'others' },
  service: { title: 'Service', one: 'Service', unit: 'jobs', count: 'callbacks', per: 100, others: 'jobs without it' },
  season: { title: 'Season', one: 'Season', unit: 'jobs', count: 'callbacks', per: 100, others: 'others' },
  rain: { title: 'Rain in the last 48 hours', one: 'Rain', unit: 'jobs', count: 'callbacks', per: 100, others: 'others' },
  pair: { title: 'Pair', one: 'Pair', unit: 'jobs', count: 'callbacks', per: 100, others: 'other pairs' },
};

const AGES: Record<string, string> = {
  '0-9': 'Homes up to 9 years old',
  '10-29': 'Homes 10 to 29 years old',
  '30-59': 'Homes 30 to 59 years old',
  '60-99': 'Homes 60 to 99 years old',
  '100+': 'Homes 100 years old or older',
  unknown: 'Year built not known',
};
const RAIN: Record<string, string> = { wet: 'After rain', dry: 'After two dry days', unknown: 'Rain not recorded' };
const SEASONS = ['Winter (December to February)', 'Spring (March to May)', 'Summer (June to August)', 'Fall (September to November)'];

/** The season of a month YYYY-MM, as its place among the four, from winter. */
export const seasonOf = (month: string): string => String(Math.floor((Number(month.slice(5, 7)) % 12) / 3));

const foundationName = (value: string): string => {
  if (value === 'unknown') return 'Foundation not known';
  const options = FACTS.foundation.options as Record<string, string>;
  const words = value.split('+').map((one) => options[one] ?? one);
  const joined = words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
  return `${joined.charAt(0).toUpperCase()}${joined.slice(1)} homes`;
};

/** Name of a value of a grouping; `named` holds the firm's own names (services, systems, steps, pairs). */
export function groupName(by: ComparedBy, value: string, named: ReadonlyMap<string, string>): string {
  if (by === 'foundation') return foundationName(value);
  if (by === 'age') return AGES[value] ?? value;
  if (by === 'rain') return RAIN[value] ?? value;
  if (by === 'season') return SEASONS[Number(value)] ?? value;
  return named.get(value) ?? value;
}

const ORDERS: Partial<Record<ComparedBy, readonly string[]>> = {
  age: Object.keys(AGES),
  rain: Object.keys(RAIN),
  season: ['0', '1', '2', '3'],
};

/** In their natural order, else by name: never by rate. */
export const inOrder = <T extends { value: string; name: string }>(by: ComparedBy, rows: readonly T[]): T[] => {
  const order = ORDERS[by];
  return [...rows].sort((a, b) =>
    order ? order.indexOf(a.value) - order.indexOf(b.value) : a.name.localeCompare(b.name, 'en-US') || (a.value < b.value ? -1 : 1),
  );
};

/** Adjusted p at or below which a difference is called a signal. */
export const ALPHA = 0.05;

export type Told = {
  name: string;
  count: number;
  /** Per unit of exposure, as its limits and the rate of the others. */
  rate: number;
  lower: number;
  upper: number;
  /** null: there are no others. */
  others: number | null;
  /** Corrected for everything compared at once; null where nothing was compared. */
  adjusted: number | null;
};

/** Which way a group differs by more than chance explains; null: it could be chance. */
export const signalOf = ({ rate, others, adjusted }: Pick<Told, 'rate' | 'others' | 'adjusted'>): 'more' | 'fewer' | null =>
  adjusted === null || others === null || adjusted > ALPHA ? null : rate > others ? 'more' : 'fewer';

/** One decimal from 1 on, two below, so that small rates keep a digit that tells. */
const rateText = (value: number): string => value.toFixed(value >= 1 || value === 0 ? 1 : 2);
export const pText = (p: number): string => (p < 0.001 ? 'below 0.001' : p < 0.01 ? p.toFixed(3) : p.toFixed(2));

type Signalled = Omit<Told, 'count' | 'others' | 'adjusted'> & { others: number; adjusted: number };

/** 'Between 2.2 and 7.0 callbacks in 100 jobs (95 %): Crawl space homes. 4.1 were counted, against 2.0 of others: more than chance explains (adjusted p 0.004).' */
export function signalSentence(by: ComparedBy, told: Signalled): string {
  const { unit, count, per, others } = GROUP_WORDS[by];
  const at = (value: number): string => rateText(value * per);
  return `Between ${at(told.lower)} and ${at(told.upper)} ${count} in ${per.toLocaleString('en-US')} ${unit} (95 %): ${told.name}. ${at(told.rate)} were counted, against ${at(told.others)} of ${others}: ${signalOf(told)} than chance explains (adjusted p ${pText(told.adjusted)}).`;
}

/** 'Crawl space homes: 4.1 callbacks in 100 jobs, 95 % 2.2 to 7.0; others 2.0; could be chance (adjusted p 0.21).' */
export function groupSentence(by: ComparedBy, told: Told): string {
  const { unit, count, per, others } = GROUP_WORDS[by];
  const at = (value: number): string => rateText(value * per);
  const head = `${told.name}: ${at(told.rate)} ${count} in ${per.toLocaleString('en-US')} ${unit}, 95 % ${at(told.lower)} to ${at(told.upper)}`;
  if (told.others === null || told.adjusted === null) return `${head}; there is nothing to compare it with.`;
  const signal = signalOf(told);
  const verdict = signal === null ? 'could be chance' : `${signal} than chance explains`;
  return `${head}; ${others} ${at(told.others)}; ${verdict} (adjusted p ${pText(told.adjusted)}).`;
}
