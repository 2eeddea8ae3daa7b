// What each file and column of the extract means.
import type { ExportTable } from '@backsight/documents/exportTable';

const FILES: Record<string, string> = {
  transactions: 'One line for each entry of money about a callback, in the order of the books. Amounts are changes.',
  callbacks: 'One line for each callback that ever came in.',
  exposure: 'One line for each month of inspection.',
  triangle_callbacks: 'Callbacks that count, cumulative, by month of inspection and age.',
  triangle_paid: 'Paid less recovered, cumulative, by month of inspection and age.',
  triangle_incurred: 'Paid and set aside, less recovered, cumulative, by month of inspection and age.',
};

const COLUMNS: Record<string, string> = {
  callback: 'Number of the callback in the books of the firm; the key between files.',
  inspected_on: 'Day of the first visit of the inspection that the callback is about; empty where it never took place.',
  received_on: 'Day on which the callback came in.',
  recorded_on: 'Day on which it was written down. What was known on a day is what was recorded by then.',
  happened_on: 'Day of the books.',
  closed_on: 'Day on which it was closed, where it is closed now.',
  kind: 'Of an entry: reserve change, payment, fee refund, recovery, reversal (of an earlier payment or recovery). Of a callback: what was brought.',
  paid: 'Money that left, before what came back; below 0 where a payment was reversed.',
  set_aside: 'Money set aside and not used yet.',
  set_aside_change: 'By how much the money set aside rose, or, below 0, fell; a payment uses it up.',
  recovered: 'Money that came back from an insurer or others.',
  policy: 'Number of the policy that the callback was put under; empty where none was named.',
  counts: 'Whether it is in the counts: questions, near-misses and duplicates are not.',
  state: 'Where it stands now.',
  system: 'Part of the house that it is about.',
  month: 'Month of inspection, YYYY-MM. Callbacks about jobs that were never inspected stand in the month in which the job was booked.',
  jobs: 'Inspections that took place.',
  fees: 'Fees of these jobs as agreed now, before refunds.',
  callbacks: 'Callbacks that count.',
  age_n:
    'Amount known at the end of the month that lies n months after the month of inspection; empty where that is still to come. The last one known in each line is as of today.',
};

const meaning = (head: string): string => COLUMNS[/^age_\d+$/.test(head) ? 'age_n' : head] ?? '';

/** The text that goes with the files. */
export function dictionary({ day, zone, tables }: { day: string; zone: string; tables: readonly ExportTable[] }): string {
  const files = tables.map(({ name, title, columns, rows }) => {
    const told = columns.filter(({ head }) => !/^age_[1-9]/.test(head));
    return [
      `${name}.csv: ${title}. ${FILES[name] ?? ''} ${rows.length} lines.`,
      ...told.map(({ head, is }) => {
        const [name_, unit] = [head === 'age_0' ? 'age_0, age_1, ...' : head, is === 'cents' ? ' In dollars.' : ''];
        return `  ${name_}: ${meaning(head)}${unit}`;
      }),
    ].join('\r\n');
  });
  return `${[
    `Data extract of ${day} (days are of the zone ${zone}).`,
    [
      'Comma-separated values in UTF-8 (RFC 4180), one head line, days as YYYY-MM-DD, amounts in dollars with two decimals.',
      'Incurred = paid + set aside - recovered. Sums of transactions are those of the ledger, to the cent.',
      'There are no names of persons or clients, no addresses and no opinions in it: neither causes nor steps nor the words of anybody.',
      'Money set aside is what the firm judged needed; nothing here is an actuarial opinion.',
      'The last column known of each line of a triangle is that of a month that still runs.',
    ].join('\r\n'),
    ...files,
  ].join('\r\n\r\n')}\r\n`;
}
