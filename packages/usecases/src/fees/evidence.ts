// The file for a disputed payment: everything on record that shows what was agreed, done, handed over and paid.
import { DateTime } from 'luxon';
import { METHODS } from '@backsight/domain/fees/invoice';
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { namedApart, type PaperPart } from '@backsight/documents/papers/parts';
import type { Reader } from '@backsight/store/database';
import { findInvoice, findPayment, invoiceLines, paymentsOf, type InvoiceRow } from '@backsight/store/fees';
import { findEvidence, type EvidenceFacts } from '@backsight/store/fees/evidence';
import { sealedPapersOfJob } from '@backsight/store/agreements/sealed';
import { findJobForInvoice } from '@backsight/store/fees/job';
import { dayWords, paper } from './papers.ts';

type At = (instant: string | null) => string;
const words = (code: string): string => code.replaceAll('_', ' ');

/** As one PDF. Refusal: not-found. */
export async function evidenceFile(reader: Reader, now: Date, paymentId: string): Promise<Outcome<PdfFile>> {
  const payment = await findPayment(reader, paymentId);
  if (!payment) return refuse('not-found', { thing: 'payment' });
  const invoice = (await findInvoice(reader, payment.invoiceId))!;
  const { zone } = (await findJobForInvoice(reader, invoice.jobId))!;
  const at: At = (instant) => (instant === null ? '' : DateTime.fromISO(instant, { zone }).toFormat('LLL d, yyyy h:mm a ZZZZ'));
  const facts = await findEvidence(reader, invoice.jobId);
  const parts = [
    {
      pairs: [
        ['Payment', `${formatUsd(payment.cents)} by ${METHODS[payment.method]} ${payment.reference}`.trim()],
        ['Received', dayWords(payment.receivedOn)],
        ['Came back', payment.reversedOn === null ? 'no' : `${dayWords(payment.reversedOn)}: ${payment.reversalMemo}`],
        ['Payer', invoice.payerName],
        ['Service', `Inspection of ${invoice.address} (job ${invoice.jobNumber})`],
        ['Gathered', at(now.toISOString())],
      ] as const,
    },
    ...agreementParts(facts, at),
    ...visitParts(facts, at),
    ...sentParts(facts, at),
    ...(await moneyParts(reader, invoice)),
    ...facts.agreements.map((a) => ({
      heading: `Words of the agreement issued ${at(a.issuedAt)}${a.superseded ? ' (superseded)' : ''}`,
      markdown: a.body,
    })),
  ];
  const sealed = namedApart(await sealedPapersOfJob(reader, invoice.jobId));
  return accept(
    await paper(
      reader,
      {
        name: `evidence-invoice-${invoice.number}`,
        title: `Evidence about a payment for invoice ${invoice.number}`,
        at: now,
        jobId: invoice.jobId,
        foot: 'SHA-256 fingerprints are of the exact bytes on file',
        attached: sealed.map(({ name, content, sha256 }) => ({
          name,
          says: `Sealed paper, SHA-256 ${sha256}`,
          bytes: content,
          type: 'application/pdf',
        })),
      },
      [
        ...parts,
        table(
          'Sealed papers attached to this file',
          ['File', 'Sealed', 'Fingerprint'],
          sealed.map((one) => [one.name, at(one.recordedAt.toISOString()), one.sha256]),
        ),
      ],
    ),
  );
}

const table = (heading: string, heads: string[], rows: string[][], amounts: number[] = []): PaperPart =>
  rows.length > 0 ? { heading, table: { heads, rows, amounts } } : { heading, text: 'Nothing on file.' };

const agreementParts = ({ agreements, signatures }: EvidenceFacts, at: At): PaperPart[] => [
  table(
    'Agreement and signatures',
    ['Signed', 'By', 'How', 'Fingerprint of what was signed'],
    signatures.map((s) => [at(s.at), `${s.name} (${s.signer}, ${words(s.capacity)})`, `${words(s.method)}, ${s.device}`, s.sha256]),
  ),
  table(
    'Agreements issued',
    ['Issued', 'Fingerprint'],
    agreements.map((a) => [at(a.issuedAt) + (a.superseded ? ', superseded' : ''), a.sha256]),
  ),
];

const visitParts = ({ visits, deliveries }: EvidenceFacts, at: At): PaperPart[] => [
  table(
    'Visits and site records',
    ['Appointment', 'Pair', 'Record opened at the property', 'Record sealed', 'Steps recorded'],
    visits.map((v) => [
      `${at(v.startsAt)} (${words(v.state)})`,
      v.pair ?? '',
      at(v.openedAt),
      v.sealedAt === null ? '' : `${at(v.sealedAt)}, ${v.seal}`,
      String(v.steps),
    ]),
  ),
  table(
    'Report handed over',
    ['When', 'To', 'How', 'Version'],
    deliveries.map((d) => [at(d.at), d.to, words(d.method), `${d.version}, of ${dayWords(d.reportOn)}`]),
  ),
];

const sentParts = ({ mails, contacts }: EvidenceFacts, at: At): PaperPart[] => [
  table(
    'Mail about appointments, agreement and report',
    ['When', 'To', 'Subject', 'State'],
    mails.map((m) => [at(m.at), m.to, m.subject, m.state === 'sent' ? 'accepted by the mail server' : words(m.state)]),
  ),
  table(
    'Calls, texts and talks',
    ['When', 'With', 'How', 'What was said'],
    contacts.map((c) => [at(c.at), `${c.who}, by ${c.by}`, `${words(c.channel)}, ${words(c.outcome)}`, c.words ?? '']),
  ),
];

async function moneyParts(reader: Reader, invoice: InvoiceRow): Promise<PaperPart[]> {
  const lines = (await invoiceLines(reader, invoice.id)).map(({ label, cents }) => [label, formatUsd(cents)]);
  const payments = (await paymentsOf(reader, invoice.id)).map((p) => [
    dayWords(p.receivedOn),
    `${METHODS[p.method]} ${p.reference}`.trim(),
    formatUsd(p.cents),
    p.reversedOn === null ? '' : `${dayWords(p.reversedOn)}: ${p.reversalMemo}`,
  ]);
  return [
    table(
      `Invoice ${invoice.number}, due ${dayWords(invoice.dueOn)}`,
      ['For', 'Amount'],
      [...lines, ['Total', formatUsd(invoice.totalCents)]],
      [1],
    ),
    table('Payments', ['Received', 'How', 'Amount', 'Came back'], payments, [2]),
  ];
}
