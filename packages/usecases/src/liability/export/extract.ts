// The data extract for an actuary: triangles, entries of money, callbacks and exposure, and what each column means. No names, no opinions.
import { STATES, KINDS } from '@backsight/domain/callbacks/words';
import { tableCsv, type ExportTable } from '@backsight/documents/exportTable';
import { zipOf } from '@backsight/documents/zip';
import { figures, type Figure } from '@backsight/store/liability/figures';
import type { Measure } from '@backsight/store/liability/groupings';
import { extractCallbacks } from '@backsight/store/liability/export';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../../callbacks/steps/day.ts';
import { findFirm } from '@backsight/store/firm';
import { dictionary } from './dictionary.ts';
import { exposureTable, monthsOf, transactionsTable } from './money.ts';

/** Which figures a triangle adds up, with their signs. */
const TRIANGLES = {
  callbacks: { title: 'Callbacks', parts: { callbacks: 1 } },
  paid: { title: 'Paid less recovered', parts: { paid: 1, recovered: -1 } },
  incurred: { title: 'Paid and set aside, less recovered', parts: { paid: 1, reserved: 1, recovered: -1 } },
} as const satisfies Record<string, { title: string; parts: Partial<Record<Measure, number>> }>;

const number = (month: string): number => Number(month.slice(0, 4)) * 12 + Number(month.slice(5));

/** Cumulative by month of inspection and age in months, up to this month; what is still to come is empty. */
function triangleTable(of: keyof typeof TRIANGLES, rows: readonly Figure[], thisMonth: string): ExportTable {
  const { title, parts } = TRIANGLES[of];
  const signs: Partial<Record<Measure, number>> = parts;
  const months = monthsOf([...rows, { origin: thisMonth }]).filter((month) => month <= thisMonth);
  const ages = Array.from({ length: months.length }, (_, age) => age);
  return {
    name: `triangle_${of}`,
    title: `${title} by month of inspection and age`,
    columns: [
      { head: 'month' },
      { head: 'jobs', is: 'number' },
      ...ages.map((age) => ({ head: `age_${age}`, is: of === 'callbacks' ? ('number' as const) : ('cents' as const) })),
    ],
    rows: months.map((month) => {
      const mine = rows.filter(({ origin }) => origin === month);
      const jobs = mine.reduce((sum, row) => sum + (row.measure === 'jobs' ? row.amount : 0), 0);
      return [
        month,
        jobs,
        ...ages.map((age) => (number(month) + age > number(thisMonth) ? null : knownBy(mine, signs, number(month) + age))),
      ];
    }),
  };
}

const knownBy = (rows: readonly Figure[], signs: Partial<Record<Measure, number>>, month: number): number =>
  rows.reduce((sum, row) => sum + (number(row.known) <= month ? (signs[row.measure] ?? 0) * row.amount : 0), 0);

async function callbacksTable(reader: Reader): Promise<ExportTable> {
  const rows = await extractCallbacks(reader);
  return {
    name: 'callbacks',
    title: 'Callbacks',
    columns: [
      { head: 'callback', is: 'number' },
      { head: 'kind' },
      { head: 'counts' },
      { head: 'state' },
      { head: 'system' },
      { head: 'inspected_on', is: 'day' },
      { head: 'received_on', is: 'day' },
      { head: 'recorded_on', is: 'day' },
      { head: 'closed_on', is: 'day' },
      { head: 'policy' },
    ],
    rows: rows.map((row) => [
      ...[row.callback, KINDS[row.kind as keyof typeof KINDS] ?? row.kind, row.counts ? 'yes' : 'no'],
      ...[
        STATES[row.state as keyof typeof STATES] ?? row.state,
        row.system,
        row.inspectedOn,
        row.receivedOn,
        row.recordedOn,
        row.closedOn,
        row.policy,
      ],
    ]),
  };
}

/** Every table of the extract, for the owner: nothing is left out, so that sums are those of the books. */
export async function extractTables(reader: Reader, now: Date): Promise<ExportTable[]> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const rows = await figures(reader, { grouping: 'all', measures: ['jobs', 'callbacks', 'paid', 'reserved', 'recovered'] });
  const thisMonth = dayAt(now, zone).slice(0, 7);
  return [
    await transactionsTable(reader, { seeOwnerOnly: true }),
    await callbacksTable(reader),
    await exposureTable(reader),
    ...(['callbacks', 'paid', 'incurred'] as const).map((of) => triangleTable(of, rows, thisMonth)),
  ];
}

/** One file with all of it and the meaning of every column. */
export async function exportExtract(reader: Reader, now: Date): Promise<{ name: string; bytes: Uint8Array }> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const day = dayAt(now, zone);
  const tables = await extractTables(reader, now);
  const files = tables.map((table) => [`${table.name}.csv`, tableCsv(table)] as const);
  return { name: `actuary-extract-${day}.zip`, bytes: zipOf([['read_me.txt', dictionary({ day, zone, tables })], ...files], now) };
}
