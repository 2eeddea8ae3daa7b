// The books: balances on a day, entries, and the ledger as files.
import { csvText, type Cell } from '@backsight/documents/csv';
import { journalText } from '@backsight/documents/journalText';
import type { Reader } from '@backsight/store/database';
import { listAccounts } from '@backsight/store/fees/books';
import { balances, entriesBetween, listEntries, type EntryFilter } from '@backsight/store/fees/ledger';
import { localDay } from '../firm/steps/localDay.ts';

/** Balance of every account up to and including a day. */
export async function readTrialBalance(reader: Reader, now: Date, until?: string) {
  const day = until ?? (await localDay(reader, now)).today;
  const rows = (await balances(reader, day)).map(({ cents, ...account }) => ({
    ...account,
    debit: Math.max(cents, 0),
    credit: Math.max(-cents, 0),
  }));
  const sum = (side: 'debit' | 'credit') => rows.reduce((total, row) => total + row[side], 0);
  return { until: day, rows, debit: sum('debit'), credit: sum('credit') };
}

/** A page of ledger entries that the filter lets through, newest first. */
export async function readEntries(
  reader: Reader,
  { before, limit, ...filter }: EntryFilter & { before?: string | undefined; limit: number },
) {
  const rows = await listEntries(reader, filter, before ?? null, limit + 1);
  const items = rows.slice(0, limit).map((e) => ({ ...e, recordedAt: e.recordedAt.toISOString() }));
  return { items, next: rows.length > limit ? items.at(-1)!.id : null };
}

export const readAccounts = (reader: Reader) => listAccounts(reader);

type Days = { from?: string | undefined; to?: string | undefined };
const HEAD = ['Day', 'Real day', 'Entry', 'Kind', 'Memo', 'Account', 'Name', 'Debit', 'Credit', 'Job', 'Party', 'Reverses'];
const dollars = (cents: number): Cell => (cents > 0 ? (cents / 100).toFixed(2) : '');

/** One row per line of an entry, as comma-separated text; amounts in dollars. */
export async function exportCsv(reader: Reader, { from, to }: Days): Promise<string> {
  const entries = await entriesBetween(reader, from ?? null, to ?? null);
  const rows = entries.flatMap((e) =>
    e.lines.map((l): Cell[] => [
      e.happenedOn,
      e.realOn,
      e.id,
      e.kind,
      e.memo,
      l.account,
      l.name,
      dollars(l.cents),
      dollars(-l.cents),
      l.jobNumber,
      l.partyName,
      e.reversesId,
    ]),
  );
  return csvText([HEAD, ...rows]);
}

/** The same as a plain-text double-entry journal. */
export const exportJournal = async (reader: Reader, { from, to }: Days): Promise<string> =>
  journalText(await listAccounts(reader), await entriesBetween(reader, from ?? null, to ?? null));
