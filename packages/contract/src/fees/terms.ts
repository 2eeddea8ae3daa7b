// What is agreed with the payers of a job, statements, and the firm's rules about money.
import { z } from 'zod';
import { cents, day, id, idParams, line, route } from '../route.ts';

const OFFICE = ['owner', 'office_manager'] as const;
const area = 'fees';
const terms = z.enum(['due_at_booking', 'due_at_visit', 'deposit', 'billed_to_closing']);
const percent = z.int().min(1).max(100);
const ownTerms = { terms, depositCents: cents.min(1).nullable(), depositPercent: percent.nullable(), dueOn: day.nullable() };

const jobTerms = z.strictObject({
  number: z.int(),
  ...ownTerms,
  feeCents: z.int(),
  payers: z.array(z.strictObject({ partyId: id, name: z.string(), weight: z.int().nullable() })),
  rules: z.strictObject({ severalPayers: z.boolean(), depositPercent: z.int(), closingDays: z.int() }),
});
export type JobTerms = z.output<typeof jobTerms>;

const rules = {
  severalPayers: z.boolean(),
  depositPercent: percent,
  closingDays: z.int().min(0).max(365),
  returnedFeeCents: cents.min(0).max(100_000),
  taxName: line(40),
  taxThousandths: z.int().min(0).max(30_000),
  taxServices: z.array(z.string().max(60)).max(200),
  /** A deposit that is not in closes the gate of the visit; else it only warns. */
  depositClosesGate: z.boolean().default(false),
  /** A report is handed over only once the fee is paid. */
  paidBeforeHandOver: z.boolean().default(true),
};
const moneyRules = z.strictObject({
  ...rules,
  taxName: z.string(),
  version: z.int(),
  services: z.array(z.strictObject({ key: z.string(), name: z.string() })),
});
export type MoneyRules = z.output<typeof moneyRules>;

const statement = z.strictObject({
  partyId: id,
  name: z.string(),
  from: day,
  to: day,
  openingCents: z.int(),
  closingCents: z.int(),
  rows: z.array(
    z.strictObject({
      entryId: id,
      happenedOn: day,
      kind: z.string(),
      memo: z.string(),
      cents: z.int(),
      invoiceId: id.nullable(),
      owedCents: z.int(),
    }),
  ),
});
export type Statement = z.output<typeof statement>;
const period = z.strictObject({ from: day.optional(), to: day.optional() });

export const termsRoutes = {
  terms: route({
    method: 'GET',
    path: '/api/jobs/:id/terms',
    area,
    summary: 'Terms of payment of a job, its payers and their shares',
    who: OFFICE,
    params: idParams,
    reply: jobTerms,
  }),
  setTerms: route({
    method: 'PUT',
    path: '/api/jobs/:id/terms',
    area,
    summary: 'Set the terms of payment; invoices that stand are due anew',
    who: OFFICE,
    params: idParams,
    body: z.strictObject(ownTerms),
    reply: z.strictObject({ id }),
  }),
  setShares: route({
    method: 'PUT',
    path: '/api/jobs/:id/payer-shares',
    area,
    summary: 'Set in which parts several payers pay; counts when the invoice is issued anew',
    who: OFFICE,
    params: idParams,
    body: z.strictObject({ shares: z.array(z.strictObject({ partyId: id, weight: z.int().min(0).max(1_000_000) })).max(20) }),
    reply: z.strictObject({ id }),
  }),
  rules: route({
    method: 'GET',
    path: '/api/money-rules',
    area,
    summary: "The firm's rules about money: payers, deposit, closing, what is paid first, returned payments, sales tax",
    who: OFFICE,
    reply: moneyRules,
  }),
  changeRules: route({
    method: 'PUT',
    path: '/api/money-rules',
    area,
    summary: "Change the firm's rules about money; they count for invoices issued and gates looked at from now on",
    who: ['owner'],
    edits: true,
    body: z.strictObject(rules),
    reply: z.strictObject({ version: z.int() }),
  }),
  statement: route({
    method: 'GET',
    path: '/api/parties/:id/statement',
    area,
    summary: 'What a party owed, what changed it, and what it owes',
    who: OFFICE,
    params: idParams,
    query: period,
    reply: statement,
  }),
  statementCsv: route({
    method: 'GET',
    path: '/api/parties/:id/statement.csv',
    area,
    summary: 'A statement as comma-separated text (RFC 4180)',
    who: OFFICE,
    params: idParams,
    query: period,
    reply: z.unknown(),
  }),
  statementPaper: route({
    method: 'GET',
    path: '/api/parties/:id/statement/paper',
    area,
    summary: 'A statement as a paper (PDF)',
    who: OFFICE,
    params: idParams,
    query: z.strictObject({ from: day, to: day }),
    reply: z.unknown(),
  }),
};
