// Papers about money: invoice, receipt, credit note, statement.
import { DateTime } from 'luxon';
import { INVOICE_ACTS } from '@backsight/domain/fees/changes';
import { METHODS } from '@backsight/domain/fees/invoice';
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { partBlocks, type PaperPart } from '@backsight/documents/papers/parts';
import type { PdfFile, PdfPaper, Words } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import type { Reader } from '@backsight/store/database';
import { findInvoice, findPayment, invoiceLines, paymentsOf, type InvoiceRow } from '@backsight/store/fees';
import { actsOf, findInvoiceAct } from '@backsight/store/fees/acts';
import { findJobForInvoice } from '@backsight/store/fees/job';
import { letterhead } from '../firm/steps/letterhead.ts';
import { readStatement } from './statement.ts';

export const dayWords = (day: string): string => DateTime.fromISO(day, { zone: 'utc' }).toFormat('LLLL d, yyyy');

type Of = { name: string; title: string; at: Date; jobId: string | null; foot?: string; attached?: PdfPaper['attached'] };

/** The firm's head around the parts of a paper, as a PDF. */
export async function paper(reader: Reader, { name, at, jobId, ...rest }: Of, parts: readonly PaperPart[]): Promise<PdfFile> {
  const head = await letterhead(reader, at, jobId);
  return { name: `${name}.pdf`, bytes: await pdfOf({ ...head, ...rest, blocks: parts.flatMap(partBlocks) }) };
}

const dayIn = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('LLLL d, yyyy');
const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
const bold = (...cells: string[]): Words[] => cells.map((text) => [{ text, bold: true }]);

const about = (i: InvoiceRow): PaperPart['pairs'] => [
  ['To', i.payerName],
  ['For', `Inspection of ${i.address} (job ${i.jobNumber})`],
];

const DUE: Partial<Record<InvoiceRow['terms'], string>> = {
  billed_to_closing: 'The fee is due on this day whether or not the sale closes, and does not depend on what the inspection finds.',
};

/** Lines, what was paid and taken off, and what is open. */
export async function invoicePaper(reader: Reader, id: string): Promise<Outcome<PdfFile>> {
  const i = await findInvoice(reader, id);
  if (!i || i.number === null) return refuse('not-found', { thing: 'invoice' });
  const lines = (await invoiceLines(reader, id)).map(({ label, cents }) => [label, formatUsd(cents)]);
  const paid = (await paymentsOf(reader, id))
    .filter(({ reversedOn }) => reversedOn === null)
    .map((p) => [`Received ${dayWords(p.receivedOn)}, ${METHODS[p.method]} ${p.reference}`.trim(), formatUsd(-p.cents)]);
  const acts = (await actsOf(reader, id))
    .filter(({ takenBackOn }) => takenBackOn === null)
    .map((a) => [
      `${a.number === null ? capital(INVOICE_ACTS[a.kind]) : `Credit note ${a.number}`}: ${a.reason}`,
      formatUsd(a.kind === 'credit_note' || a.kind === 'write_off' ? -a.cents : a.cents),
    ]);
  const deposit = i.depositCents > 0 ? ([['Of this a deposit, due at booking', formatUsd(i.depositCents)]] as const) : [];
  const closing = DUE[i.terms];
  const { zone } = (await findJobForInvoice(reader, i.jobId))!;
  return accept(
    await paper(
      reader,
      {
        name: `invoice-${i.number}`,
        title: `Invoice ${i.number}${i.state === 'withdrawn' ? ' (withdrawn)' : ''}`,
        at: i.issuedAt!,
        jobId: i.jobId,
      },
      [
        { pairs: [...about(i)!, ['Issued', dayIn(i.issuedAt!, zone)], ['Due', dayWords(i.dueOn)], ...deposit] },
        { table: { heads: ['For', 'Amount'], rows: [...lines, bold('Total', formatUsd(i.totalCents)), ...paid, ...acts], amounts: [1] } },
        { pairs: [['Open', formatUsd(Math.max(0, i.balanceCents))]] },
        ...(closing ? [{ text: closing }] : []),
      ],
    ),
  );
}

export async function receiptPaper(reader: Reader, paymentId: string): Promise<Outcome<PdfFile>> {
  const payment = await findPayment(reader, paymentId);
  if (!payment) return refuse('not-found', { thing: 'payment' });
  const i = (await findInvoice(reader, payment.invoiceId))!;
  const back = payment.reversedOn === null ? [] : ([['Came back', `${dayWords(payment.reversedOn)}: ${payment.reversalMemo}`]] as const);
  return accept(
    await paper(
      reader,
      {
        name: `receipt-invoice-${i.number}-${payment.receivedOn}`,
        title: `Receipt for invoice ${i.number}`,
        at: payment.recordedAt,
        jobId: i.jobId,
      },
      [
        {
          pairs: [
            ...about(i)!,
            ['Received', formatUsd(payment.cents)],
            ['On', dayWords(payment.receivedOn)],
            ['By', `${METHODS[payment.method]} ${payment.reference}`.trim()],
            ...back,
            ['Open on the invoice now', formatUsd(Math.max(0, i.balanceCents))],
          ],
        },
      ],
    ),
  );
}

export async function creditNotePaper(reader: Reader, actId: string): Promise<Outcome<PdfFile>> {
  const note = await findInvoiceAct(reader, actId);
  if (!note || note.kind !== 'credit_note') return refuse('not-found', { thing: 'credit note' });
  const i = (await findInvoice(reader, note.invoiceId))!;
  const tax = note.taxCents > 0 ? ([['Of this sales tax', formatUsd(note.taxCents)]] as const) : [];
  return accept(
    await paper(
      reader,
      {
        name: `credit-note-${note.number}`,
        title: `Credit note ${note.number}`,
        at: new Date(`${note.happenedOn}T12:00:00Z`),
        jobId: i.jobId,
      },
      [
        {
          pairs: [
            ...about(i)!,
            ['Of', dayWords(note.happenedOn)],
            ['Taken off invoice', String(i.number)],
            ['Amount', formatUsd(note.cents)],
            ...tax,
            ['Reason', note.reason],
          ],
        },
      ],
    ),
  );
}

export async function statementPaper(
  reader: Reader,
  now: Date,
  ask: { partyId: string; from: string; to: string },
): Promise<Outcome<PdfFile>> {
  const read = await readStatement(reader, now, ask);
  if (!read.ok) return read;
  const { name, openingCents, closingCents, rows, from, to } = read.value;
  const table = {
    heads: ['Day', 'What', 'Amount', 'Owed'],
    rows: [
      [dayWords(from), 'Before', '', formatUsd(openingCents)],
      ...rows.map((r) => [dayWords(r.happenedOn), r.memo, formatUsd(r.cents), formatUsd(r.owedCents)]),
      [dayWords(to), 'At the end', '', formatUsd(closingCents)],
    ],
    amounts: [2, 3],
  };
  return accept(
    await paper(reader, { name: `statement-${from}-${to}`, title: `Statement for ${name}`, at: now, jobId: null }, [
      { pairs: [['Period', `${dayWords(from)} to ${dayWords(to)}`]] },
      { table },
      { text: 'An amount below zero is in your favor.' },
    ]),
  );
}
