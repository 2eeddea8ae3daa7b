// Credit notes, write-offs, refunds and charges for returned payments: each a row with its ledger entry.
import type { InvoiceActKind } from '@backsight/domain/fees/changes';
import type { Method } from '@backsight/domain/fees/invoice';
import type { Reader, Tx } from '../database.ts';

export type NewInvoiceAct = {
  id: string;
  invoiceId: string;
  kind: InvoiceActKind;
  number: number | null;
  cents: number;
  taxCents: number;
  reason: string;
  method: Method | null;
  reference: string;
  entryId: string;
  recordedBy: string | null;
  at: Date;
};

/** Rules: invoice_act_known, number_without_gap. */
export async function saveInvoiceAct(tx: Tx, { at, ...row }: NewInvoiceAct): Promise<void> {
  await tx.db.invoiceAct.create({ data: { ...row, recordedAt: at } });
}

export type InvoiceActRow = {
  id: string;
  invoiceId: string;
  kind: InvoiceActKind;
  number: number | null;
  cents: number;
  taxCents: number;
  reason: string;
  method: Method | null;
  reference: string;
  entryId: string;
  happenedOn: string;
  recordedBy: string | null;
  /** The day on which it was taken back, and how that is called. */
  takenBackOn: string | null;
};

const ACT = `SELECT c.id::text AS id, c.invoice_id::text AS "invoiceId", c.kind, c.number, c.cents, c.tax_cents AS "taxCents", c.reason, c.method, c.reference, c.entry_id::text AS "entryId",
  e.happened_on::text AS "happenedOn", w.name AS "recordedBy", r.happened_on::text AS "takenBackOn"
  FROM invoice_act c JOIN ledger_entry e ON e.id = c.entry_id LEFT JOIN ledger_entry r ON r.reverses_id = c.entry_id LEFT JOIN person w ON w.id = c.recorded_by`;

export const actsOf = (reader: Reader, invoiceId: string): Promise<InvoiceActRow[]> =>
  reader.rows<InvoiceActRow>(`${ACT} WHERE c.invoice_id = $1::uuid ORDER BY c.recorded_at, c.id`, [invoiceId]);

export const findInvoiceAct = async (reader: Reader, id: string): Promise<InvoiceActRow | null> =>
  (await reader.rows<InvoiceActRow>(`${ACT} WHERE c.id = $1::uuid`, [id]))[0] ?? null;
