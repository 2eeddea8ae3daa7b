// Reads over the whole ledger.
import type { Reader } from '../database.ts';

export type BalanceRow = { account: string; name: string; kind: string; cents: number };

/**
 * Balance of every account (debit positive) over entries up to a day: of all lines, which one index holds in order of account, less
 * those of later days, which are none for today.
 */
export const balances = (reader: Reader, until: string): Promise<BalanceRow[]> =>
  reader.rows<BalanceRow>(
    `SELECT a.code AS account, a.name, a.kind, (coalesce(s.cents, 0) - coalesce(t.cents, 0))::bigint AS cents
     FROM ledger_account a LEFT JOIN (SELECT account, sum(cents) AS cents FROM ledger_line GROUP BY 1) s ON s.account = a.code
       LEFT JOIN (SELECT l.account, sum(l.cents) AS cents FROM ledger_entry e JOIN ledger_line l ON l.entry_id = e.id WHERE e.happened_on > $1::date GROUP BY 1) t ON t.account = a.code
     ORDER BY array_position(ARRAY['asset', 'liability', 'equity', 'income', 'expense'], a.kind), a.code`,
    [until],
  );

export type EntryLine = {
  account: string;
  name: string;
  cents: number;
  jobId: string | null;
  jobNumber: number | null;
  callbackId: string | null;
  partyId: string | null;
  partyName: string | null;
};

export type EntryRow = {
  id: string;
  kind: string;
  happenedOn: string;
  realOn: string | null;
  memo: string;
  reversesId: string | null;
  /** Of the invoice that the entry belongs to, if there is one. */
  invoiceId: string | null;
  by: string | null;
  recordedAt: Date;
  lines: EntryLine[];
};

/** What to show: all of it where nothing is said. Days are inclusive. */
export type EntryFilter = {
  account?: string | undefined;
  kind?: string | undefined;
  from?: string | undefined;
  to?: string | undefined;
  job?: number | undefined;
  partyId?: string | undefined;
  words?: string | undefined;
};

const ENTRY = `SELECT e.id::text AS id, e.kind, e.happened_on::text AS "happenedOn", e.real_on::text AS "realOn", e.memo, e.reverses_id::text AS "reversesId", e.recorded_at AS "recordedAt", w.name AS by,
    (SELECT o.invoice_id::text FROM invoice_entry o WHERE o.entry_id = coalesce(e.reverses_id, e.id) LIMIT 1) AS "invoiceId",
    (SELECT jsonb_agg(jsonb_build_object('account', l.account, 'name', a.name, 'cents', l.cents, 'jobId', l.job_id, 'jobNumber', j.number, 'callbackId', l.callback_id, 'partyId', l.party_id, 'partyName', q.name) ORDER BY l.position)
     FROM ledger_line l JOIN ledger_account a ON a.code = l.account LEFT JOIN job j ON j.id = l.job_id LEFT JOIN party q ON q.id = l.party_id WHERE l.entry_id = e.id) AS lines
  FROM ledger_entry e LEFT JOIN person w ON w.id = e.actor_id`;

/** Each part as a parameter of its own; only what was asked for is said, so that entries of a job or party are found by their lines. */
const where = (f: EntryFilter): string =>
  [
    ['account', '$1::text', `EXISTS (SELECT FROM ledger_line l WHERE l.entry_id = e.id AND l.account = $1)`],
    ['kind', '$2::text', 'e.kind = $2'],
    ['from', '$3::date', 'e.happened_on >= $3::date'],
    ['to', '$4::date', 'e.happened_on <= $4::date'],
    ['job', '$5::int', 'e.id IN (SELECT l.entry_id FROM ledger_line l JOIN job j ON j.id = l.job_id WHERE j.number = $5::int)'],
    ['partyId', '$6::uuid', 'e.id IN (SELECT l.entry_id FROM ledger_line l WHERE l.party_id = $6::uuid)'],
    ['words', '$7::text', 'strpos(lower(e.memo), lower($7)) > 0'],
  ]
    .map(([part, given, holds]) => ((f[part as keyof EntryFilter] ?? null) === null ? `${given} IS NULL` : holds))
    .join(' AND ');

const paramsOf = (f: EntryFilter) => [
  f.account ?? null,
  f.kind ?? null,
  f.from ?? null,
  f.to ?? null,
  f.job ?? null,
  f.partyId ?? null,
  f.words ?? null,
];

/** Newest entries first, by their day; `before` is the id of the last entry of the page before. */
export const listEntries = (reader: Reader, filter: EntryFilter, before: string | null, limit: number): Promise<EntryRow[]> =>
  reader.rows<EntryRow>(
    `${ENTRY} WHERE ${where(filter)} AND ($8::uuid IS NULL OR (e.happened_on, e.id) < (SELECT b.happened_on, b.id FROM ledger_entry b WHERE b.id = $8::uuid)) ORDER BY e.happened_on DESC, e.id DESC LIMIT $9::int`,
    [...paramsOf(filter), before, limit],
  );

/** Every entry of some days in their order, for export. */
export function entriesBetween(reader: Reader, from: string | null, to: string | null): Promise<EntryRow[]> {
  const filter = { from: from ?? undefined, to: to ?? undefined };
  return reader.rows<EntryRow>(`${ENTRY} WHERE ${where(filter)} ORDER BY e.happened_on, e.id`, paramsOf(filter));
}

export type PartyEntry = { entryId: string; happenedOn: string; kind: string; memo: string; cents: number; invoiceId: string | null };

/** What a party owed before a day, in cents; below zero it is owed to the party. Deposits held count in its favor. */
export async function owedBefore(reader: Reader, partyId: string, day: string): Promise<number> {
  const [row] = await reader.rows<{ n: number }>(
    `SELECT coalesce(sum(l.cents), 0)::int AS n FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE l.party_id = $1::uuid AND l.account IN ('receivable', 'deposits-held') AND e.happened_on < $2::date`,
    [partyId, day],
  );
  return row?.n ?? 0;
}

/** What changed what a party owes, day by day; entries that only moved a deposit are left out. */
export const entriesOfParty = (reader: Reader, partyId: string, from: string, to: string): Promise<PartyEntry[]> =>
  reader.rows<PartyEntry>(
    `SELECT e.id::text AS "entryId", e.happened_on::text AS "happenedOn", e.kind, e.memo, sum(l.cents)::int AS cents,
       (SELECT o.invoice_id::text FROM invoice_entry o WHERE o.entry_id = coalesce(e.reverses_id, e.id) LIMIT 1) AS "invoiceId"
     FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE l.party_id = $1::uuid AND l.account IN ('receivable', 'deposits-held') AND e.happened_on BETWEEN $2::date AND $3::date
     GROUP BY e.id HAVING sum(l.cents) <> 0 ORDER BY e.happened_on, e.id`,
    [partyId, from, to],
  );

export const findPartyName = async (reader: Reader, id: string): Promise<string | null> =>
  (await reader.rows<{ name: string }>('SELECT name FROM party WHERE id = $1::uuid', [id]))[0]?.name ?? null;
