// What the ledger says of callbacks. Everything is a sum of lines; no balance is stored.
import { incurred, type CallbackMoney } from '@backsight/domain/callbacks/money';
import type { Reader } from '../database.ts';

/** Paid is what left the bank beside what came back; reversed entries cancel themselves. */
export const MONEY_SUMS = `
  coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0)::int AS "paidCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0)::int AS "reservedCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'recoveries'), 0)::int AS "recoveredCents"`;

export async function moneyOf(reader: Reader, callbackId: string): Promise<CallbackMoney> {
  const [row] = await reader.rows<Omit<CallbackMoney, 'incurredCents'>>(
    `SELECT ${MONEY_SUMS} FROM ledger_line l WHERE l.callback_id = $1::uuid`,
    [callbackId],
  );
  const sums = row ?? { paidCents: 0, reservedCents: 0, recoveredCents: 0 };
  return { ...sums, incurredCents: incurred(sums) };
}

export type MoneyEntry = {
  id: string;
  kind: string;
  happenedOn: string;
  memo: string;
  by: string | null;
  lines: { account: string; name: string; cents: number }[];
};

/** Ledger entries of a callback, oldest first. */
export const entriesOf = (reader: Reader, callbackId: string): Promise<MoneyEntry[]> =>
  reader.rows<MoneyEntry>(
    `SELECT e.id::text AS id, e.kind, e.happened_on::text AS "happenedOn", e.memo, p.name AS by, jsonb_agg(jsonb_build_object('account', l.account, 'name', a.name, 'cents', l.cents) ORDER BY l.position) AS lines
     FROM ledger_entry e JOIN ledger_line l ON l.entry_id = e.id JOIN ledger_account a ON a.code = l.account LEFT JOIN person p ON p.id = e.actor_id WHERE l.callback_id = $1::uuid GROUP BY e.id, p.name ORDER BY e.recorded_at, e.id`,
    [callbackId],
  );
