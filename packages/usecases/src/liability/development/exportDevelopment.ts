// The triangle and its estimates as a table: known amounts by age, then expected ones, then what the period is likely to end with.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { csvText, type Cell } from '@backsight/documents/csv';
import type { Reader } from '@backsight/store/database';
import { readDevelopment, type DevelopmentAsked, type DevelopmentPage } from './readDevelopment.ts';
import { METHOD_NAMES } from './words.ts';

/** Amounts in dollars, or callbacks. Ages in periods from the start of the period of inspection. */
export async function exportDevelopment(reader: Reader, asked: DevelopmentAsked): Promise<Outcome<string>> {
  const page = await readDevelopment(reader, asked);
  if (!page.ok) return page;
  const { origins, by, asOf, folded } = page.value;
  const ages = origins.map((_, at) => at + 1);
  const amount = (value: number | null | undefined): Cell =>
    value === null || value === undefined ? null : page.value.of === 'callbacks' ? value : (value / 100).toFixed(2);
  const head = [
    'inspected in',
    'jobs',
    'callbacks',
    ...ages.map((age) => `after ${age} ${by}${age === 1 ? '' : 's'}`),
    ...ages.slice(1).map((age) => `expected after ${age} ${by}s`),
    `latest, ${asOf}`,
    'method',
    'why',
    'share usually known',
    'ultimate',
    'unreported',
    'standard error',
  ];
  const rows = origins.map(({ name, jobs, callbacks, cells, latest, outlook }): Cell[] => [
    name,
    jobs,
    callbacks,
    ...ages.map((_, at) => amount(cells[at])),
    ...ages.slice(1).map((_, at) => amount(outlook?.projected[at + 1 - cells.length])),
    amount(latest),
    outlook && METHOD_NAMES[outlook.method],
    outlook?.why ?? null,
    outlook && Number(outlook.shareKnown.toFixed(4)),
    amount(outlook?.ultimate),
    amount(outlook?.unreported),
    amount(outlook?.standardError),
  ]);
  const blank = ages.flatMap((_, at) => (at === 0 ? [null] : [null, null]));
  const older: Cell[][] = folded
    ? [[folded.name, folded.jobs, folded.callbacks, ...blank, amount(folded.latest), null, null, null, null, null, null]]
    : [];
  return accept(csvText([head, ...older, ...rows, totalsOf(page.value, blank, amount), ...notes(page.value).map((note) => [note])]));
}

function totalsOf({ origins, estimate }: DevelopmentPage, blank: Cell[], amount: (value: number | null) => Cell): Cell[] {
  const sum = (of: (origin: DevelopmentPage['origins'][number]) => number): number => origins.reduce((total, each) => total + of(each), 0);
  const ends = estimate.ok ? [estimate.totals.ultimate, estimate.totals.unreported, estimate.totals.standardError] : [null, null, null];
  return [
    'together',
    sum(({ jobs }) => jobs),
    sum(({ callbacks }) => callbacks),
    ...blank,
    amount(sum(({ latest }) => latest)),
    null,
    null,
    null,
    ...ends.map(amount),
  ];
}

const notes = ({ estimate }: DevelopmentPage): string[] => (estimate.ok ? estimate.because : [estimate.sentence]);
