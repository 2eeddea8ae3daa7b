// Invoices, payments and the ledger. What was paid is always counted from ledger lines, never from a stored balance.
import type { EntryKind, LedgerLine } from '@backsight/domain/fees/ledger';
import type { InvoiceState, Method } from '@backsight/domain/fees/invoice';
import type { Terms } from '@backsight/domain/jobs/words';
import { dayIn, execute, type Reader, type Tx } from './database.ts';

export type NewEntry = {
  id: string;
  kind: EntryKind;
  happenedOn: string;
  /** The real day, where `happenedOn` is another because its books were closed. */
  realOn?: string | null;
  memo: string;
  lines: readonly LedgerLine[];
  reversesId?: string;
  actorId: string | null;
  at: Date;
};

/** Writes an entry with its lines. Rules: ledger_entry_balances, ledger_day_closed, reserve_not_negative, payment_needs_clearance, ledger_entry_reverses_id_key. */
export async function saveEntry(tx: Tx, e: NewEntry): Promise<void> {
  const { id, kind, memo, actorId } = e;
  await tx.db.ledgerEntry.create({
    data: {
      id,
      kind,
      memo,
      actorId,
      reversesId: e.reversesId ?? null,
      happenedOn: dayIn(e.happenedOn),
      realOn: e.realOn ? dayIn(e.realOn) : null,
      recordedAt: e.at,
    },
  });
  await tx.db.ledgerLine.createMany({ data: e.lines.map((line, position) => ({ entryId: id, position, ...line })) });
}

export type LineRow = { account: string; cents: number; partyId?: string; jobId?: string; callbackId?: string };

/** The lines of one entry, in their order. */
export async function linesOf(reader: Reader, entryId: string): Promise<LineRow[]> {
  const rows = await reader.rows<LineRow>(
    `SELECT account, cents, party_id::text AS "partyId", job_id::text AS "jobId", callback_id::text AS "callbackId" FROM ledger_line WHERE entry_id = $1::uuid ORDER BY position`,
    [entryId],
  );
  return rows.map((row) => Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)) as LineRow);
}

/** What the ledger says of invoice i, by kind of what belongs to it: views invoice_entry and invoice_money. */
const MONEY = `LEFT JOIN LATERAL (SELECT coalesce(sum(m.cents), 0)::int AS balance, coalesce(-sum(m.cents) FILTER (WHERE m.kind IN ('payment', 'refund')), 0)::int AS paid,
  coalesce(-sum(m.cents) FILTER (WHERE m.kind = 'credit_note'), 0)::int AS credited, coalesce(-sum(m.cents) FILTER (WHERE m.kind = 'write_off'), 0)::int AS written,
  coalesce(sum(m.cents) FILTER (WHERE m.kind = 'returned_fee'), 0)::int AS added FROM invoice_money m WHERE m.invoice_id = i.id) m ON true`;

export type InvoiceRow = {
  id: string;
  number: number | null;
  jobId: string;
  jobNumber: number;
  payerId: string;
  payerName: string;
  payerEmail: string | null;
  state: InvoiceState;
  totalCents: number;
  taxCents: number;
  depositCents: number;
  /** What came in less what went back. */
  paidCents: number;
  creditedCents: number;
  creditedTaxCents: number;
  writtenOffCents: number;
  /** Charged for returned payments. */
  addedCents: number;
  /** What is open; below zero it is what is to be given back. */
  balanceCents: number;
  dueOn: string;
  issuedAt: Date | null;
  terms: Terms;
  address: string;
};

const INVOICE = `SELECT i.id::text AS id, i.number, i.job_id::text AS "jobId", j.number AS "jobNumber", i.payer_id::text AS "payerId", w.name AS "payerName", w.email AS "payerEmail", i.state,
  i.total_cents AS "totalCents", i.tax_cents AS "taxCents", i.deposit_cents AS "depositCents", m.paid AS "paidCents", m.credited AS "creditedCents", m.written AS "writtenOffCents", m.added AS "addedCents", m.balance AS "balanceCents",
  CASE WHEN i.tax_cents = 0 OR i.state = 'withdrawn' THEN 0 ELSE (SELECT coalesce(sum(c.tax_cents), 0)::int FROM invoice_act c WHERE c.invoice_id = i.id AND c.kind = 'credit_note') END AS "creditedTaxCents", i.due_on::text AS "dueOn", i.issued_at AS "issuedAt", j.terms, a.address || ', ' || a.town AS address
  FROM invoice i JOIN job j ON j.id = i.job_id JOIN party w ON w.id = i.payer_id JOIN property a ON a.id = j.property_id ${MONEY}`;

export const findInvoice = async (reader: Reader, id: string): Promise<InvoiceRow | null> =>
  (await reader.rows<InvoiceRow>(`${INVOICE} WHERE i.id = $1::uuid`, [id]))[0] ?? null;

/** Every issued invoice of a job, oldest first, also withdrawn ones. */
export const invoicesOfJob = (reader: Reader, jobId: string): Promise<InvoiceRow[]> =>
  reader.rows<InvoiceRow>(`${INVOICE} WHERE i.job_id = $1::uuid AND i.number IS NOT NULL ORDER BY i.number`, [jobId]);

/** Issued invoices on which something is open, longest due first. Of one that is paid nothing is (`stateOf` in the domain). */
export const openInvoices = (reader: Reader): Promise<InvoiceRow[]> =>
  reader.rows<InvoiceRow>(`${INVOICE} WHERE i.state IN ('issued', 'withdrawn') AND m.balance > 0 ORDER BY i.due_on, i.number LIMIT 2000`);

/** Invoices on which more was paid than is asked for, oldest first: the database marks them as money comes in and goes back. */
export const invoicesToGiveBack = (reader: Reader): Promise<InvoiceRow[]> =>
  reader.rows<InvoiceRow>(`${INVOICE} WHERE i.overpaid ORDER BY i.number LIMIT 2000`);

export const invoiceLines = (reader: Reader, invoiceId: string): Promise<{ label: string; cents: number; taxCents: number }[]> =>
  reader.rows(`SELECT label, cents, tax_cents AS "taxCents" FROM invoice_line WHERE invoice_id = $1::uuid ORDER BY position`, [invoiceId]);

/** Keeps two payments, or a payment and a withdrawal, from deciding on the same open amount. */
export const lockInvoice = (tx: Tx, id: string): Promise<void> => execute(tx, 'SELECT 1 FROM invoice WHERE id = $1::uuid FOR UPDATE', id);
/** Keeps two issues for one job apart, and an issue from a payment; the job row itself stays free. */
export async function lockInvoicesOfJob(tx: Tx, jobId: string): Promise<void> {
  await execute(tx, `SELECT pg_advisory_xact_lock(hashtextextended('invoice of ' || $1, 0))`, jobId);
  await execute(tx, 'SELECT 1 FROM invoice WHERE job_id = $1::uuid ORDER BY id FOR UPDATE', jobId);
}

export type NewInvoice = {
  id: string;
  number: number;
  jobId: string;
  payerId: string;
  totalCents: number;
  taxCents: number;
  depositCents: number;
  dueOn: string;
  lines: readonly { label: string; cents: number; taxCents?: number }[];
  at: Date;
};

export async function saveInvoice(tx: Tx, i: NewInvoice): Promise<void> {
  const { lines, at, dueOn, ...row } = i;
  await tx.db.invoice.create({ data: { ...row, state: 'issued', dueOn: dayIn(dueOn), issuedAt: at, recordedAt: at } });
  await tx.db.invoiceLine.createMany({ data: lines.map((line, position) => ({ invoiceId: i.id, position, ...line })) });
}

/** Sets when the invoices of a job are due and what they ask for ahead. */
export const setInvoiceDue = (tx: Tx, id: string, dueOn: string, depositCents: number): Promise<void> =>
  tx.db.invoice.update({ where: { id }, data: { dueOn: dayIn(dueOn), depositCents } });

export const setInvoiceState = (tx: Tx, id: string, state: InvoiceState): Promise<void> =>
  tx.db.invoice.update({ where: { id }, data: { state } });

export type PaymentRow = {
  id: string;
  invoiceId: string;
  method: Method;
  reference: string;
  cents: number;
  receivedOn: string;
  entryId: string;
  recordedAt: Date;
  recordedBy: string | null;
  reversedOn: string | null;
  reversalMemo: string | null;
};

const PAYMENT = `SELECT p.id::text AS id, p.invoice_id::text AS "invoiceId", p.method, p.reference, p.cents, p.received_on::text AS "receivedOn", p.entry_id::text AS "entryId",
  p.recorded_at AS "recordedAt", w.name AS "recordedBy", r.happened_on::text AS "reversedOn", r.memo AS "reversalMemo"
  FROM payment p LEFT JOIN ledger_entry r ON r.reverses_id = p.entry_id LEFT JOIN person w ON w.id = p.recorded_by`;

export const paymentsOf = (reader: Reader, invoiceId: string): Promise<PaymentRow[]> =>
  reader.rows<PaymentRow>(`${PAYMENT} WHERE p.invoice_id = $1::uuid ORDER BY p.received_on, p.recorded_at, p.id`, [invoiceId]);

export const findPayment = async (reader: Reader, id: string): Promise<PaymentRow | null> =>
  (await reader.rows<PaymentRow>(`${PAYMENT} WHERE p.id = $1::uuid`, [id]))[0] ?? null;

export type NewPayment = {
  id: string;
  invoiceId: string;
  method: Method;
  reference: string;
  cents: number;
  receivedOn: string;
  entryId: string;
  recordedBy: string | null;
  at: Date;
};

export async function savePayment(tx: Tx, p: NewPayment): Promise<void> {
  const { at, receivedOn, ...row } = p;
  await tx.db.payment.create({ data: { ...row, receivedOn: dayIn(receivedOn), recordedAt: at } });
}

/** What is held as a deposit of a party for a job, in positive cents. */
export async function heldFor(reader: Reader, jobId: string, partyId: string): Promise<number> {
  const [row] = await reader.rows<{ n: number }>(
    `SELECT coalesce(-sum(cents), 0)::int AS n FROM ledger_line WHERE account = 'deposits-held' AND job_id = $1::uuid AND party_id = $2::uuid`,
    [jobId, partyId],
  );
  return row?.n ?? 0;
}

/** Jobs whose visit has begun, or ended early with its charge decided, while money is still held as a deposit. */
export const depositsToEarn = (reader: Reader): Promise<{ jobId: string; partyId: string; cents: number }[]> =>
  reader.rows(
    `WITH held AS MATERIALIZED (SELECT job_id, party_id, -sum(cents) AS cents FROM ledger_line WHERE account = 'deposits-held' AND job_id IS NOT NULL GROUP BY job_id, party_id HAVING sum(cents) < 0)
     SELECT h.job_id::text AS "jobId", h.party_id::text AS "partyId", h.cents::int AS cents FROM held h CROSS JOIN LATERAL (SELECT state FROM job WHERE id = h.job_id OFFSET 0) j
     WHERE EXISTS (SELECT FROM visit v WHERE v.job_id = h.job_id AND (v.state IN ('on_site', 'done')
       OR (v.state = 'ended' AND EXISTS (SELECT FROM job_need n WHERE n.job_id = v.job_id AND n.kind = 'ending_fee' AND n.state = 'settled'))))
     OR j.state = 'cancelled' AND EXISTS (SELECT FROM invoice i WHERE i.job_id = h.job_id AND i.state IN ('issued', 'paid'))
     LIMIT 200`,
  );
