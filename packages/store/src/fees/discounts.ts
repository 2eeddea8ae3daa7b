// Discounts of jobs that were given by hand; the newest counts.
import { discountSaid, type Discount, type DiscountSaid } from '@backsight/domain/fees/discount';
import type { Reader, Tx } from '../database.ts';

type Row = { cents: number | null; percentHundredths: number | null; reason: string };

/** Null when none was given, or it was taken off again. */
export async function discountOf(reader: Reader, jobId: string): Promise<Discount | null> {
  const [row] = await reader.rows<Row>(
    'SELECT cents, percent_hundredths AS "percentHundredths", reason FROM job_discount WHERE job_id = $1::uuid ORDER BY recorded_at DESC, id DESC LIMIT 1',
    [jobId],
  );
  if (!row) return null;
  return discountSaid({ ...row, percent: row.percentHundredths === null ? null : row.percentHundredths / 100 });
}

/** Constraint: job_discount_one_amount. */
export async function saveDiscount(
  tx: Tx,
  row: DiscountSaid & { id: string; jobId: string; at: Date; recordedBy: string | null },
): Promise<void> {
  const { percent, at, ...rest } = row;
  const percentHundredths = percent === null ? null : Math.round(percent * 100);
  await tx.db.jobDiscount.create({ data: { ...rest, percentHundredths, recordedAt: at } });
}
