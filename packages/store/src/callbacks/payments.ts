// How remedies were paid, what came back and from whom, and what of it the insurer bore.
import type { Source } from '@backsight/domain/callbacks/money';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type NewRemedyPayment = { entryId: string; remedyId: string; invoiceId: string | null; method: string; reference: string };
/** Rules: payment_needs_approval, remedy_paid_once, payment_waits_for_release. */
export const saveRemedyPayment = (tx: Tx, p: NewRemedyPayment): Promise<void> => tx.db.remedyPayment.create({ data: p });

export type EntryOfCallback = {
  id: string;
  kind: string;
  callbackId: string;
  /** What the bank lines come to, as an amount. */
  cents: number;
  reversed: boolean;
  remedyId: string | null;
};
/** An entry of the ledger that belongs to a callback; null when there is none. */
export const findEntry = async (reader: Reader, id: string): Promise<EntryOfCallback | null> =>
  (
    await reader.rows<EntryOfCallback>(
      `SELECT e.id::text AS id, e.kind, (SELECT l.callback_id::text FROM ledger_line l WHERE l.entry_id = e.id AND l.callback_id IS NOT NULL LIMIT 1) AS "callbackId",
         coalesce((SELECT abs(sum(l.cents)) FROM ledger_line l WHERE l.entry_id = e.id AND l.account = 'bank'), 0)::int AS cents, EXISTS (SELECT FROM ledger_entry v WHERE v.reverses_id = e.id) AS reversed,
         (SELECT p.remedy_id::text FROM remedy_payment p WHERE p.entry_id = e.id) AS "remedyId"
       FROM ledger_entry e WHERE e.id = $1::uuid AND EXISTS (SELECT FROM ledger_line l WHERE l.entry_id = e.id AND l.callback_id IS NOT NULL)`,
      [id],
    )
  )[0] ?? null;

/** What went back on an invoice because of callbacks, in cents. */
export const backOnInvoice = async (reader: Reader, invoiceId: string): Promise<number> =>
  (
    await reader.rows<{ cents: number }>(
      `SELECT coalesce(-sum(l.cents), 0)::int AS cents FROM remedy_payment p JOIN ledger_line l ON l.entry_id = p.entry_id AND l.account = 'bank'
       WHERE p.invoice_id = $1::uuid AND NOT EXISTS (SELECT FROM ledger_entry v WHERE v.reverses_id = p.entry_id)`,
      [invoiceId],
    )
  )[0]!.cents;

export type NewRecovery = {
  id: string;
  callbackId: string;
  source: Source;
  direct: boolean;
  cents: number;
  receivedOn: string;
  entryId: string | null;
  recordedAt: Date;
};
/** Rule: callback_recovery_known. */
export const saveRecovery = (tx: Tx, r: NewRecovery): Promise<void> =>
  tx.db.callbackRecovery.create({ data: { ...r, receivedOn: dayIn(r.receivedOn) } });

export type RecoveryRow = { id: string; source: Source; direct: boolean; cents: number; receivedOn: string; entryId: string | null };
const STANDS = `NOT EXISTS (SELECT FROM ledger_entry v WHERE v.reverses_id = c.entry_id)`;
/** Those that were taken back are left out. */
export const recoveriesOf = (reader: Reader, callbackId: string): Promise<RecoveryRow[]> =>
  reader.rows<RecoveryRow>(
    `SELECT c.id::text AS id, c.source, c.direct, c.cents, c.received_on::text AS "receivedOn", c.entry_id::text AS "entryId" FROM callback_recovery c WHERE c.callback_id = $1::uuid AND ${STANDS} ORDER BY c.received_on, c.id`,
    [callbackId],
  );

/** What the insurer paid under each policy so far, to the firm and to others, in cents. */
export const insurerPaidByPolicy = (reader: Reader): Promise<{ policyId: string; cents: number; callbacks: number }[]> =>
  reader.rows(
    `SELECT k.policy_id::text AS "policyId", coalesce(sum(c.cents) FILTER (WHERE c.source = 'insurer' AND ${STANDS}), 0)::int AS cents, count(DISTINCT k.id)::int AS callbacks
     FROM callback k LEFT JOIN callback_recovery c ON c.callback_id = k.id WHERE k.policy_id IS NOT NULL GROUP BY 1`,
  );

export const setPolicyOf = (tx: Tx, callbackId: string, policyId: string | null): Promise<void> =>
  tx.db.callback.update({ where: { id: callbackId }, data: { policyId } });
