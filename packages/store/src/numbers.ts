// The numbers that people say: jobs, callbacks, invoices, credit notes, corrective actions, reports.
import type { Tx } from './database.ts';

/** Next number of a kind. Locks the counter row until the transaction ends: take it last, so that others wait briefly. */
export async function nextNumber(
  tx: Tx,
  kind: 'job' | 'callback' | 'invoice' | 'credit-note' | 'corrective-action' | 'report',
): Promise<number> {
  const [row] = await tx.rows<{ n: number }>(
    `INSERT INTO number_counter (kind, next) VALUES ($1, 1002) ON CONFLICT (kind) DO UPDATE SET next = number_counter.next + 1 RETURNING next - 1 AS n`,
    [kind],
  );
  if (!row) throw new Error('the counter gave no number');
  return row.n;
}
