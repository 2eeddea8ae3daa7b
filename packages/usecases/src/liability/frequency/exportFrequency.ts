// The tables of the pages as comma-separated text (RFC 4180): months, groups, pairs and persons.
import { GROUP_WORDS, type ComparedBy } from '@backsight/domain/liability/frequency/groups';
import { csvText, type Cell } from '@backsight/documents/csv';
import type { Reader } from '@backsight/store/database';
import { readFrequency } from './readFrequency.ts';
import type { SpanAsked } from './span.ts';

const dollars = (cents: number): Cell => (cents / 100).toFixed(2);
const rounded = (value: number | null, digits = 4): Cell => (value === null ? null : Number(value.toFixed(digits)));
const ratio = (over: number, under: number, per: number): number | null => (under > 0 ? (over / under) * per : null);

/** Rates per 100 jobs (per 1,000 times of steps), amounts in dollars. */
export async function exportFrequency(reader: Reader, { by, ...asked }: SpanAsked & { by: ComparedBy | 'month' }): Promise<string> {
  const page = await readFrequency(reader, asked);
  if (by === 'month') return csvText([MONTH_HEADS, ...page.months.map(monthCells)]);
  const { one, unit, count, per } = GROUP_WORDS[by];
  const rows = page.groups.find((table) => table.by === by)?.rows ?? [];
  const heads = [
    one.toLowerCase(),
    count,
    unit,
    `per ${per}`,
    'from (95 %)',
    'to (95 %)',
    'drawn towards the common rate',
    'others',
    'ratio to the others',
  ];
  const scaled = (value: number | null): Cell => rounded(value === null ? null : value * per);
  return csvText([
    [...heads, 'p', 'p corrected for many comparisons', 'signal', 'incurred'],
    ...rows.map((row) => [
      ...[
        row.name,
        row.count,
        row.exposure,
        scaled(row.rate),
        scaled(row.lower),
        scaled(row.upper),
        scaled(row.shrunk),
        scaled(row.others),
      ],
      ...[rounded(row.ratio), rounded(row.p, 6), rounded(row.adjusted, 6), row.signal, dollars(row.incurredCents)],
    ]),
    ...(by === 'pair' ? page.hiddenPairs.map((name) => [name, 'too few']) : []),
  ]);
}

type Month = Awaited<ReturnType<typeof readFrequency>>['months'][number];
const MONTH_HEADS = [
  ...['inspected in', 'jobs', 'callbacks', 'callbacks per 100 jobs', 'incurred', 'cost per job', 'state', 'share usually known by now'],
  ...['jobs a year earlier', 'callbacks a year earlier', 'of them known at the same age', 'incurred a year earlier'],
];
const monthCells = ({ month, jobs, callbacks, incurredCents, state, share, earlier }: Month): Cell[] => [
  ...[month, jobs, callbacks, rounded(ratio(callbacks, jobs, 100)), dollars(incurredCents)],
  ...[jobs > 0 ? dollars(incurredCents / jobs) : null, state, rounded(share)],
  ...(earlier ? [earlier.jobs, earlier.callbacks, earlier.callbacksAtSameAge, dollars(earlier.incurredCents)] : [null, null, null, null]),
];
