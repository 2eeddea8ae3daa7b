// The double-entry ledger: its accounts, the entries that fees make, and what the lines add up to.

/** Codes of the accounts that the program itself posts to. */
export const ACCOUNTS = {
  bank: 'Bank',
  receivable: 'Receivable',
  'deposits-held': 'Deposits held',
  'fee-income': 'Fee income',
  'fee-refunds': 'Fee refunds',
  'callback-reserve': 'Callback reserve',
  'callback-cost': 'Callback cost',
  recoveries: 'Recoveries',
  'write-offs': 'Write-offs',
  'sales-tax': 'Sales tax owed',
  'returned-fees': 'Charges for returned payments',
} as const;
export type Account = keyof typeof ACCOUNTS;

export const ENTRY_KINDS = [
  'invoice',
  'payment',
  'deposit',
  'deposit_earned',
  'reserve_change',
  'callback_payment',
  'fee_refund',
  'recovery',
  'reversal',
  'credit_note',
  'write_off',
  'refund',
  'returned_fee',
  'journal',
] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

/** Debit positive, credit negative, whole cents, never zero. An account by its code: the program's or the firm's own. */
export type LedgerLine = { account: string; cents: number; partyId?: string; jobId?: string; callbackId?: string };

/** One entry; `happenedOn` is an ISO day. */
export type LedgerEntry = { kind: EntryKind; happenedOn: string; memo: string; lines: readonly LedgerLine[]; reversesId?: string };

/** Whom the lines of a fee are about. */
export type About = { partyId: string; jobId: string };

const sum = (lines: readonly { cents: number }[]): number => lines.reduce((total, { cents }) => total + cents, 0);

/**
 * Passes the lines through if they make a sound entry: two or more, whole cents, none zero, sum zero (debits equal credits).
 * @throws Error otherwise: an entry that does not balance is a mistake of the program, never of a person.
 */
export function balanced<T extends { cents: number }>(lines: readonly T[]): readonly T[] {
  if (lines.length < 2) throw new Error('A ledger entry needs at least two lines.');
  if (lines.some(({ cents }) => !Number.isSafeInteger(cents) || cents === 0))
    throw new Error('A ledger line is a whole number of cents other than 0.');
  if (sum(lines) !== 0) throw new Error(`A ledger entry must sum to 0, not ${sum(lines)} cents.`);
  return lines;
}

const pair = (debit: Account, credit: Account, cents: number, about: About): readonly LedgerLine[] =>
  balanced([
    { account: debit, cents, ...about },
    { account: credit, cents: -cents, ...about },
  ]);

/** The fee is earned by agreement and owed from now on; `taxCents` of it belong to the state. */
export const invoiceLines = (cents: number, about: About, taxCents = 0): readonly LedgerLine[] =>
  balanced(
    [
      { account: 'receivable', cents, ...about },
      { account: 'fee-income', cents: taxCents - cents, ...about },
      { account: 'sales-tax', cents: -taxCents, ...about },
    ].filter((line) => line.cents !== 0),
  );
/** Money came in for what was owed. */
export const paymentLines = (cents: number, about: About): readonly LedgerLine[] => pair('bank', 'receivable', cents, about);
/** Money came in before the visit: held for the client, a liability. */
export const depositLines = (cents: number, about: About): readonly LedgerLine[] => pair('bank', 'deposits-held', cents, about);
/** The visit took place: what was held now pays what is owed. */
export const depositEarnedLines = (cents: number, about: About): readonly LedgerLine[] => pair('deposits-held', 'receivable', cents, about);

/** Takes an entry back, line by line. */
export const reversalLines = (lines: readonly LedgerLine[]): readonly LedgerLine[] =>
  balanced(lines.map((line) => ({ ...line, cents: -line.cents })));

/**
 * Takes a payment back. If it was held as a deposit and has been earned since, what is then short in `deposits-held`
 * is owed again: `heldCents` is what is held for the job before the reversal (a credit balance, given as positive cents).
 */
export function paymentReversalLines(lines: readonly LedgerLine[], heldCents: number): readonly LedgerLine[] {
  const back = reversalLines(lines);
  const taken = sum(back.filter(({ account }) => account === 'deposits-held'));
  const short = taken - heldCents;
  const of = back.find(({ account }) => account === 'deposits-held');
  if (!of || short <= 0) return back;
  return balanced([...back, { ...of, account: 'receivable', cents: short }, { ...of, cents: -short }]);
}

/** Balance of an account over some lines: debits minus credits, in cents. */
export const balanceOf = (lines: readonly { account: string; cents: number }[], account: Account): number =>
  sum(lines.filter((line) => line.account === account));

export type TrialRow = { account: string; debit: number; credit: number };

/** Every account with its balance on the side where it stands, in cents. The two columns of the whole have the same sum. */
export function trialBalance(lines: readonly { account: string; cents: number }[]): TrialRow[] {
  const byAccount = new Map<string, number>();
  for (const { account, cents } of lines) byAccount.set(account, (byAccount.get(account) ?? 0) + cents);
  return [...byAccount]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([account, cents]) => ({ account, debit: Math.max(cents, 0), credit: Math.max(-cents, 0) }));
}
