// Invoices, payments and the ledger.
import { z } from 'zod';
import { METHODS, REVERSAL_REASONS } from '@backsight/domain/fees/invoice';
import { cents, day, id, idParams, instant, page, route } from './route.ts';

export { METHODS, REVERSAL_REASONS };

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
  paidCents: z.int(),
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
  lines: z.array(z.strictObject({ label: z.string(), cents: z.int() })),
  payments: z.array(payment),
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
export const trialBalance = z.strictObject({
  until: day,
  debit: z.int(),
  credit: z.int(),
  rows: z.array(z.strictObject({ account: z.string(), name: z.string(), kind: z.string(), debit: z.int(), credit: z.int() })),
});
export type TrialBalance = z.output<typeof trialBalance>;
const entry = z.strictObject({
  id,
  kind: z.string(),
  happenedOn: day,
  memo: z.string(),
  reversesId: id.nullable(),
  recordedAt: instant,
  lines: z.array(z.strictObject({ account: z.string(), cents: z.int(), jobId: id.nullable(), callbackId: id.nullable() })),
});
export type LedgerEntryShown = z.output<typeof entry>;

const paymentBody = z.strictObject({
  id,
  method,
  reference: z
    .string()
    .trim()
    .max(80)
    .regex(/^[^\u0000-\u001f]*$/, 'must be one line without control characters'),
  cents: cents.min(1),
  receivedOn: day,
});

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
    summary: 'Take a payment back',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({ reason: reversalReason }),
    reply: z.strictObject({ id, openCents: z.int() }),
  }),
  receivables: route({
    method: 'GET',
    path: '/api/receivables',
    area: 'fees',
    summary: 'Who owes what, and since when',
    who: OFFICE,
    reply: receivables,
  }),
  trialBalance: route({
    method: 'GET',
    path: '/api/ledger/balance',
    area: 'fees',
    summary: 'Trial balance',
    who: ['owner'],
    query: z.strictObject({ until: day.optional() }),
    reply: trialBalance,
  }),
  entries: route({
    method: 'GET',
    path: '/api/ledger/entries',
    area: 'fees',
    summary: 'Ledger entries, newest first',
    who: ['owner'],
    query: z.strictObject({ before: id.optional(), limit: z.coerce.number().int().min(1).max(100).default(50) }),
    reply: page(entry),
  }),
};
