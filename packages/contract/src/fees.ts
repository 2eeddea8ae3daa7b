// Invoices, payments, and what else happens to an invoice.
import { z } from 'zod';
import { INVOICE_ACTS } from '@backsight/domain/fees/changes';
import { METHODS, REVERSAL_REASONS } from '@backsight/domain/fees/invoice';
import { cents, day, id, idParams, instant, line, route } from './route.ts';

export { INVOICE_ACTS, METHODS, REVERSAL_REASONS };

const OFFICE = ['owner', 'office_manager'] as const;
const keys = <T extends Record<string, string>>(list: T) => z.enum(Object.keys(list) as [keyof T & string, ...(keyof T & string)[]]);
export const method = keys(METHODS);
export const reversalReason = keys(REVERSAL_REASONS);

const invoiceHead = {
  id,
  number: z.int().nullable(),
  jobId: id,
  jobNumber: z.int(),
  payerId: id,
  payerName: z.string(),
  state: z.enum(['draft', 'issued', 'paid', 'withdrawn']),
  totalCents: z.int(),
  taxCents: z.int(),
  depositCents: z.int(),
  paidCents: z.int(),
  creditedCents: z.int(),
  writtenOffCents: z.int(),
  addedCents: z.int(),
  openCents: z.int(),
  toGiveBackCents: z.int(),
  dueOn: day,
  issuedAt: instant.nullable(),
  terms: z.enum(['due_at_booking', 'due_at_visit', 'deposit', 'billed_to_closing']),
  address: z.string(),
};
const invoiceRow = z.strictObject(invoiceHead);
const payment = z.strictObject({
  id,
  invoiceId: id,
  method,
  reference: z.string(),
  cents: z.int(),
  receivedOn: day,
  recordedAt: instant,
  recordedBy: z.string().nullable(),
  reversedOn: day.nullable(),
  reversalMemo: z.string().nullable(),
});
export const invoice = z.strictObject({
  ...invoiceHead,
  lines: z.array(z.strictObject({ label: z.string(), cents: z.int(), taxCents: z.int() })),
  payments: z.array(payment),
  acts: z.array(
    z.strictObject({
      id,
      kind: keys(INVOICE_ACTS),
      number: z.int().nullable(),
      cents: z.int(),
      taxCents: z.int(),
      reason: z.string(),
      method: method.nullable(),
      reference: z.string(),
      happenedOn: day,
      recordedBy: z.string().nullable(),
      takenBackOn: day.nullable(),
    }),
  ),
  handedOverOn: day.nullable(),
});
export type Invoice = z.output<typeof invoice>;
const band = z.enum(['not due', '0-30', '31-60', '61-90', 'over 90']);
export const receivables = z.strictObject({
  items: z.array(z.strictObject({ ...invoiceHead, days: z.int(), band })),
  bands: z.array(z.strictObject({ band, cents: z.int() })),
  totalCents: z.int(),
  back: z.array(invoiceRow),
  backCents: z.int(),
});
export type Receivables = z.output<typeof receivables>;
const how = {
  method,
  reference: z
    .string()
    .trim()
    .max(80)
    .regex(/^[^\u0000-\u001f]*$/, 'Write this in one line.'),
};
const amount = cents.min(1);
const paymentBody = z.strictObject({ id, ...how, cents: amount, receivedOn: day });
const changeBody = { id, cents: amount, reason: line(200) };
const changed = z.strictObject({ id, number: z.int().nullable(), openCents: z.int() });
const onInvoice = { method: 'POST', area: 'fees', who: OFFICE, creates: true, params: idParams, reply: changed } as const;
const paperOf = { method: 'GET', area: 'fees', who: OFFICE, params: idParams, reply: z.unknown() } as const;

export const feesRoutes = {
  issue: route({
    method: 'POST',
    path: '/api/jobs/:id/invoices',
    area: 'fees',
    summary: 'Issue what is not invoiced yet',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: z.strictObject({ invoiceId: id, number: z.int() }),
  }),
  ofJob: route({
    method: 'GET',
    path: '/api/jobs/:id/invoices',
    area: 'fees',
    summary: 'Invoices of a job',
    who: OFFICE,
    params: idParams,
    reply: z.array(invoiceRow),
  }),
  one: route({
    method: 'GET',
    path: '/api/invoices/:id',
    area: 'fees',
    summary: 'One invoice with lines and payments',
    who: OFFICE,
    params: idParams,
    reply: invoice,
  }),
  pay: route({
    method: 'POST',
    path: '/api/invoices/:id/payments',
    area: 'fees',
    summary: 'Record a payment',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: paymentBody,
    reply: z.strictObject({ id, openCents: z.int() }),
  }),
  reverse: route({
    method: 'POST',
    path: '/api/payments/:id/reversal',
    area: 'fees',
    summary: 'Take a payment back, with or without the charge for a returned payment',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({ reason: reversalReason, charge: z.boolean().default(false) }),
    reply: z.strictObject({ id, openCents: z.int(), chargedCents: z.int() }),
  }),
  receivables: route({
    method: 'GET',
    path: '/api/receivables',
    area: 'fees',
    summary: 'Who owes what, and since when',
    who: OFFICE,
    reply: receivables,
  }),
  creditNote: route({
    ...onInvoice,
    path: '/api/invoices/:id/credit-notes',
    summary: 'Take something off an invoice by a numbered credit note',
    body: z.strictObject(changeBody),
  }),
  writeOff: route({
    ...onInvoice,
    path: '/api/invoices/:id/write-offs',
    summary: 'Write off what will not be paid, up to the approval limit of whoever does it',
    body: z.strictObject(changeBody),
  }),
  refund: route({
    ...onInvoice,
    path: '/api/invoices/:id/refunds',
    summary: 'Give money back that was paid above what the invoice asks for',
    body: z.strictObject({ ...changeBody, ...how }),
  }),
  takeBack: route({
    method: 'POST',
    path: '/api/invoice-acts/:id/reversal',
    area: 'fees',
    summary: 'Take a write-off or a charge for a returned payment back',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: z.strictObject({ id, openCents: z.int() }),
  }),
  paper: route({ ...paperOf, path: '/api/invoices/:id/paper', summary: 'The invoice as a paper (PDF)' }),
  receipt: route({ ...paperOf, path: '/api/payments/:id/receipt', summary: 'The receipt of a payment as a paper (PDF)' }),
  creditNotePaper: route({ ...paperOf, path: '/api/credit-notes/:id/paper', summary: 'A credit note as a paper (PDF)' }),
  evidence: route({
    ...paperOf,
    path: '/api/payments/:id/evidence',
    summary:
      'Everything on file for a disputed payment in one file (PDF): agreement, signatures, mail, visit, hand-over, invoice, payments, contacts',
  }),
};
