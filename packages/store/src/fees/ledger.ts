// Reads over the whole ledger.
import type { Reader } from '../database.ts';

export type BalanceRow = { account: string; name: string; kind: string; cents: number };

/** Balance of every account (debit positive) over entries that happened up to a day. */
export const balances = (reader: Reader, until: string): Promise<BalanceRow[]> =>
  reader.rows<BalanceRow>(
    `SELECT a.code AS account, a.name, a.kind, coalesce((SELECT sum(l.cents) FROM ledger_line l JOIN ledger_entry e ON e.id = l.entry_id WHERE l.account = a.code AND e.happened_on <= $1::date), 0)::bigint AS cents
     FROM ledger_account a ORDER BY array_position(ARRAY['asset', 'liability', 'equity', 'income', 'expense'], a.kind), a.code`,
    [until],
  );

export type EntryRow = {
  id: string;
  kind: string;
  happenedOn: string;
  memo: string;
  reversesId: string | null;
  recordedAt: Date;
  lines: { account: string; cents: number; jobId: string | null; callbackId: string | null }[];
};

/** Newest entries first; `before` is the id of the last entry of the page before. */
export const listEntries = (reader: Reader, before: string | null, limit: number): Promise<EntryRow[]> =>
  reader.rows<EntryRow>(
    `SELECT e.id::text AS id, e.kind, e.happened_on::text AS "happenedOn", e.memo, e.reverses_id::text AS "reversesId", e.recorded_at AS "recordedAt",
       (SELECT jsonb_agg(jsonb_build_object('account', l.account, 'cents', l.cents, 'jobId', l.job_id, 'callbackId', l.callback_id) ORDER BY l.position) FROM ledger_line l WHERE l.entry_id = e.id) AS lines
     FROM ledger_entry e WHERE $1::uuid IS NULL OR e.id < $1::uuid ORDER BY e.id DESC LIMIT $2::int`,
    [before, limit],
  );
