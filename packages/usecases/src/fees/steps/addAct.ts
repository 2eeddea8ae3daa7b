// Writes one credit note, write-off, refund or charge with its ledger entry.
import { INVOICE_ACTS, type InvoiceActKind } from '@backsight/domain/fees/changes';
import type { Method } from '@backsight/domain/fees/invoice';
import type { LedgerLine } from '@backsight/domain/fees/ledger';
import type { InvoiceRow } from '@backsight/store/fees';
import { saveInvoiceAct } from '@backsight/store/fees/acts';
import { nextNumber } from '@backsight/store/numbers';
import type { Work } from '../../run.ts';
import { postEntry } from './post.ts';

export type ActToAdd = {
  id: string;
  kind: InvoiceActKind;
  cents: number;
  taxCents?: number;
  reason: string;
  method?: Method;
  reference?: string;
  happenedOn: string;
  lines: readonly LedgerLine[];
};

/** Answers the number of a credit note, which follows the one before it without a gap; null for the other kinds. */
export async function addAct(work: Work, invoice: InvoiceRow, act: ActToAdd): Promise<number | null> {
  const number = act.kind === 'credit_note' ? await nextNumber(work.tx, 'credit-note') : null;
  const what = INVOICE_ACTS[act.kind];
  const name = number === null ? what[0]!.toUpperCase() + what.slice(1) : `Credit note ${number}`;
  const entryId = await postEntry(work, {
    kind: act.kind,
    happenedOn: act.happenedOn,
    memo: `${name}, invoice ${invoice.number}`,
    lines: act.lines,
  });
  await saveInvoiceAct(work.tx, {
    id: act.id,
    invoiceId: invoice.id,
    kind: act.kind,
    number,
    cents: act.cents,
    taxCents: act.taxCents ?? 0,
    reason: act.reason,
    method: act.method ?? null,
    reference: act.reference?.trim() ?? '',
    entryId,
    recordedBy: work.actor.kind === 'person' ? work.actor.id : null,
    at: work.now,
  });
  return number;
}
