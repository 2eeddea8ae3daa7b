// The books: balances, entries, accounts, closed months, and the ledger as files.
import { z } from 'zod';
import { ACCOUNT_KINDS } from '@backsight/domain/fees/books';
import { ENTRY_KINDS } from '@backsight/domain/fees/ledger';
import { cents, day, id, instant, line, page, route } from '../route.ts';

export { ACCOUNT_KINDS, ENTRY_KINDS };

const area = 'fees';
const OWNER = ['owner'] as const;
const accountKind = z.enum(Object.keys(ACCOUNT_KINDS) as [keyof typeof ACCOUNT_KINDS, ...(keyof typeof ACCOUNT_KINDS)[]]);
const code = line(60);

const trialBalance = z.strictObject({
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
  realOn: day.nullable(),
  memo: z.string(),
  reversesId: id.nullable(),
  invoiceId: id.nullable(),
  by: z.string().nullable(),
  recordedAt: instant,
  lines: z.array(
    z.strictObject({
      account: z.string(),
      name: z.string(),
      cents: z.int(),
      jobId: id.nullable(),
      jobNumber: z.int().nullable(),
      callbackId: id.nullable(),
      partyId: id.nullable(),
      partyName: z.string().nullable(),
    }),
  ),
});
export type LedgerEntryShown = z.output<typeof entry>;
const account = z.strictObject({ code: z.string(), name: z.string(), kind: z.string(), own: z.boolean() });
export type LedgerAccount = z.output<typeof account>;
const days = z.strictObject({ from: day.optional(), to: day.optional() });
const books = z.strictObject({
  through: day.nullable(),
  acts: z.array(z.strictObject({ id, through: day.nullable(), reason: z.string(), recordedAt: instant, recordedBy: z.string() })),
});
export type Books = z.output<typeof books>;
const closed = z.strictObject({ through: day.nullable() });

export const ledgerRoutes = {
  trialBalance: route({
    method: 'GET',
    path: '/api/ledger/balance',
    area,
    summary: 'Trial balance',
    who: OWNER,
    query: z.strictObject({ until: day.optional() }),
    reply: trialBalance,
  }),
  entries: route({
    method: 'GET',
    path: '/api/ledger/entries',
    area,
    summary: 'Ledger entries, newest first, by account, kind, days, job, party or words of the memo',
    who: OWNER,
    query: z.strictObject({
      before: id.optional(),
      limit: z.coerce.number().int().min(1).max(100).default(50),
      account: code.optional(),
      kind: z.enum(ENTRY_KINDS).optional(),
      from: day.optional(),
      to: day.optional(),
      job: z.coerce.number().int().min(1).max(2_000_000_000).optional(),
      partyId: id.optional(),
      words: line(80).optional(),
    }),
    reply: page(entry),
  }),
  enter: route({
    method: 'POST',
    path: '/api/ledger/entries',
    area,
    summary: 'Write an entry by hand; debits must equal credits',
    who: OWNER,
    creates: true,
    body: z.strictObject({
      id,
      happenedOn: day,
      memo: line(120),
      lines: z.array(z.strictObject({ account: code, cents })).max(40),
    }),
    reply: z.strictObject({ id }),
  }),
  accounts: route({
    method: 'GET',
    path: '/api/ledger/accounts',
    area,
    summary: 'Chart of accounts',
    who: OWNER,
    reply: z.array(account),
  }),
  addAccount: route({
    method: 'POST',
    path: '/api/ledger/accounts',
    area,
    summary: "Add an account of the firm's own",
    who: OWNER,
    creates: true,
    body: z.strictObject({ name: line(60), kind: accountKind }),
    reply: z.strictObject({ code: z.string() }),
  }),
  nameAccount: route({
    method: 'PUT',
    path: '/api/ledger/accounts/:code',
    area,
    summary: 'Rename an account',
    who: OWNER,
    params: z.strictObject({ code }),
    body: z.strictObject({ name: line(60) }),
    reply: z.strictObject({ code: z.string() }),
  }),
  books: route({
    method: 'GET',
    path: '/api/ledger/books',
    area,
    summary: 'Through which day the books are closed, and every closing and reopening',
    who: OWNER,
    reply: books,
  }),
  close: route({
    method: 'POST',
    path: '/api/ledger/closings',
    area,
    summary: 'Close the books through the last day of a month',
    who: OWNER,
    creates: true,
    body: z.strictObject({ id, through: day, reason: line(200) }),
    reply: closed,
  }),
  reopen: route({
    method: 'POST',
    path: '/api/ledger/reopenings',
    area,
    summary: 'Open a closed month and every later one again',
    who: OWNER,
    creates: true,
    body: z.strictObject({ id, from: day, reason: line(200) }),
    reply: closed,
  }),
  csv: route({
    method: 'GET',
    path: '/api/ledger/export.csv',
    area,
    summary: 'Ledger lines as comma-separated text (RFC 4180)',
    who: OWNER,
    query: days,
    reply: z.unknown(),
  }),
  journal: route({
    method: 'GET',
    path: '/api/ledger/export.journal',
    area,
    summary: 'The ledger as a plain-text double-entry journal',
    who: OWNER,
    query: days,
    reply: z.unknown(),
  }),
};
