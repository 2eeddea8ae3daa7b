// Closed months and the chart of accounts.
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

const LOCK = `hashtextextended('closing of the books', 0)`;

/** The day through which the books are closed; null when all are open. Inside a transaction it stays so until the end. */
export async function closedThrough(tx: Tx): Promise<string | null> {
  await execute(tx, `SELECT pg_advisory_xact_lock_shared(${LOCK})`);
  return (await newestClosing(tx))?.through ?? null;
}

/** Waits for whoever is writing an entry, and lets nobody write one until the transaction ends. */
export const lockBooks = (tx: Tx): Promise<void> => execute(tx, `SELECT pg_advisory_xact_lock(${LOCK})`);

export type ClosingRow = { id: string; through: string | null; reason: string; recordedAt: Date; recordedBy: string };

const CLOSING = `SELECT c.id::text AS id, c.through::text AS through, c.reason, c.recorded_at AS "recordedAt", p.name AS "recordedBy" FROM book_closing c JOIN person p ON p.id = c.recorded_by ORDER BY c.recorded_at DESC, c.id DESC`;

export const newestClosing = async (reader: Reader): Promise<ClosingRow | null> =>
  (await reader.rows<ClosingRow>(`${CLOSING} LIMIT 1`))[0] ?? null;

/** Every closing and reopening, newest first. */
export const listClosings = (reader: Reader): Promise<ClosingRow[]> => reader.rows<ClosingRow>(`${CLOSING} LIMIT 200`);

export async function saveClosing(
  tx: Tx,
  closing: { id: string; through: string | null; reason: string; recordedBy: string; at: Date },
): Promise<void> {
  const { at, through, ...row } = closing;
  await tx.db.bookClosing.create({ data: { ...row, through: through === null ? null : dayIn(through), recordedAt: at } });
}

export type AccountRow = { code: string; name: string; kind: string; own: boolean };

export const listAccounts = (reader: Reader): Promise<AccountRow[]> =>
  reader.rows<AccountRow>(
    `SELECT code, name, kind, own FROM ledger_account ORDER BY array_position(ARRAY['asset', 'liability', 'equity', 'income', 'expense'], kind), code`,
  );

/** Adds an account of the firm's own. Constraint: ledger_account_pkey. */
export const saveAccount = (tx: Tx, account: { code: string; name: string; kind: string }): Promise<void> =>
  tx.db.ledgerAccount.create({ data: { ...account, own: true } });

/** Answers whether there is such an account. */
export const renameAccount = async (tx: Tx, code: string, name: string): Promise<boolean> =>
  (await tx.db.ledgerAccount.updateMany({ where: { code }, data: { name } })).count === 1;
