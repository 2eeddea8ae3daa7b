// Every entry of money about callbacks as a table, and jobs with their fees by month of inspection.
import type { ExportTable } from '@backsight/documents/exportTable';
import { figures, type Figure } from '@backsight/store/liability/figures';
import { transactions } from '@backsight/store/liability/export';
import type { Reader } from '@backsight/store/database';

/** Words of the books for the kinds of entries that callbacks have. */
const KINDS: Record<string, string> = {
  reserve_change: 'reserve change',
  callback_payment: 'payment',
  fee_refund: 'fee refund',
  recovery: 'recovery',
  reversal: 'reversal',
};

/** Amounts are changes: their sums are what the ledger says, to the cent. */
export async function transactionsTable(reader: Reader, who: { seeOwnerOnly: boolean }): Promise<ExportTable> {
  const rows = await transactions(reader, who);
  return {
    name: 'transactions',
    title: 'Entries of money about callbacks',
    columns: [
      { head: 'callback', is: 'number' },
      { head: 'inspected_on', is: 'day' },
      { head: 'received_on', is: 'day' },
      { head: 'happened_on', is: 'day' },
      { head: 'recorded_on', is: 'day' },
      { head: 'kind' },
      { head: 'paid', is: 'cents' },
      { head: 'set_aside_change', is: 'cents' },
      { head: 'recovered', is: 'cents' },
      { head: 'policy' },
    ],
    rows: rows.map((row) => [
      ...[row.callback, row.inspectedOn, row.receivedOn, row.happenedOn, row.recordedOn, KINDS[row.kind] ?? row.kind.replaceAll('_', ' ')],
      ...[row.paidCents, row.reservedCents, row.recoveredCents, row.policy],
    ]),
  };
}

const sumOf = (rows: readonly Figure[], measure: string): number =>
  rows.reduce((sum, row) => sum + (row.measure === measure ? row.amount : 0), 0);

/** Months in order without a gap, from the first to the last that any figure names. */
export function monthsOf(rows: readonly { origin: string }[]): string[] {
  const number = (month: string): number => Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1;
  const all = rows.map(({ origin }) => number(origin));
  if (all.length === 0) return [];
  const [first, last] = [Math.min(...all), Math.max(...all)];
  return Array.from({ length: last - first + 1 }, (_, at) => nameOf(first + at));
}
const nameOf = (month: number): string => `${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}`;

/** Jobs that took place, their fees, the callbacks they brought and the money of these, by month of inspection. */
export async function exposureTable(reader: Reader): Promise<ExportTable> {
  const rows = await figures(reader, { grouping: 'all', measures: ['jobs', 'fees', 'callbacks', 'paid', 'reserved', 'recovered'] });
  return {
    name: 'exposure',
    title: 'Exposure by month of inspection',
    columns: [
      { head: 'month' },
      { head: 'jobs', is: 'number' },
      { head: 'fees', is: 'cents' },
      { head: 'callbacks', is: 'number' },
      { head: 'paid', is: 'cents' },
      { head: 'set_aside', is: 'cents' },
      { head: 'recovered', is: 'cents' },
    ],
    rows: monthsOf(rows).map((month) => {
      const mine = rows.filter(({ origin }) => origin === month);
      return [month, ...['jobs', 'fees', 'callbacks', 'paid', 'reserved', 'recovered'].map((measure) => sumOf(mine, measure))];
    }),
  };
}
