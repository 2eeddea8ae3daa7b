// What a party owed at the beginning of a period, what changed it, and what it owed at the end.
import { DateTime } from 'luxon';
import { csvText, type Cell } from '@backsight/documents/csv';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { entriesOfParty, findPartyName, owedBefore, type PartyEntry } from '@backsight/store/fees/ledger';
import { localDay } from '../firm/steps/localDay.ts';

export type Statement = {
  partyId: string;
  name: string;
  from: string;
  to: string;
  openingCents: number;
  closingCents: number;
  rows: (PartyEntry & { owedCents: number })[];
};
type Ask = { partyId: string; from?: string | undefined; to?: string | undefined };

/** Amounts owed are above zero, what is in favor of the party below. Without days: from the first of January to today. */
export async function readStatement(reader: Reader, now: Date, ask: Ask): Promise<Outcome<Statement>> {
  const name = await findPartyName(reader, ask.partyId);
  if (name === null) return refuse('not-found', { thing: 'party' });
  const { today } = await localDay(reader, now);
  const to = ask.to ?? today;
  const from = ask.from ?? DateTime.fromISO(to, { zone: 'utc' }).startOf('year').toISODate()!;
  if (from > to) return refuse('statement-days', {}, 'from');
  const openingCents = await owedBefore(reader, ask.partyId, from);
  let owedCents = openingCents;
  const rows = (await entriesOfParty(reader, ask.partyId, from, to)).map((row) => ({ ...row, owedCents: (owedCents += row.cents) }));
  return accept({ partyId: ask.partyId, name, from, to, openingCents, closingCents: owedCents, rows });
}

const dollars = (cents: number): Cell => Number((cents / 100).toFixed(2));

export async function exportStatement(reader: Reader, now: Date, ask: Ask): Promise<Outcome<string>> {
  const read = await readStatement(reader, now, ask);
  if (!read.ok) return read;
  const { from, to, openingCents, closingCents, rows } = read.value;
  return accept(
    csvText([
      ['Day', 'What', 'Amount', 'Owed'],
      [from, 'Before', null, dollars(openingCents)],
      ...rows.map((r): Cell[] => [r.happenedOn, r.memo, dollars(r.cents), dollars(r.owedCents)]),
      [to, 'At the end', null, dollars(closingCents)],
    ]),
  );
}
