// The firm's rules about money, and what was agreed with the payers of a job.
import { dayIn, execute, type Reader, type Tx } from '../database.ts';
import type { Terms } from '@backsight/domain/jobs/words';

export type MoneyRulesRow = {
  severalPayers: boolean;
  depositPercent: number;
  closingDays: number;
  returnedFeeCents: number;
  taxName: string;
  taxThousandths: number;
  taxServices: string[];
  /** A deposit that is not in closes the gate of the visit; else it only warns. */
  depositClosesGate: boolean;
  /** A report is handed over only once the fee is paid. */
  paidBeforeHandOver: boolean;
  version: number;
};

/**
 * What counts until somebody sets anything: one payer, half as a deposit that only warns while it is not in, 30 days to the closing, no charge
 * for returned payments, no tax, paid before the hand-over.
 */
const UNSET: MoneyRulesRow = {
  severalPayers: false,
  depositPercent: 50,
  closingDays: 30,
  returnedFeeCents: 0,
  taxName: 'Sales tax',
  taxThousandths: 0,
  taxServices: [],
  depositClosesGate: false,
  paidBeforeHandOver: true,
  version: 1,
};

export const findMoneyRules = async (reader: Reader): Promise<MoneyRulesRow> =>
  (
    await reader.rows<MoneyRulesRow>(
      `SELECT several_payers AS "severalPayers", deposit_percent AS "depositPercent", closing_days AS "closingDays", returned_fee_cents AS "returnedFeeCents",
         tax_name AS "taxName", tax_thousandths AS "taxThousandths", tax_services AS "taxServices",
         deposit_closes_gate AS "depositClosesGate", paid_before_hand_over AS "paidBeforeHandOver", version FROM money_rules WHERE id = 1`,
    )
  )[0] ?? UNSET;

/** Sets the rules if the version is the one seen; answers whether it was. */
export async function saveMoneyRules(tx: Tx, { version, ...rules }: MoneyRulesRow): Promise<boolean> {
  await execute(tx, 'INSERT INTO money_rules (id, tax_services) VALUES (1, ARRAY[]::text[]) ON CONFLICT DO NOTHING');
  const { count } = await tx.db.moneyRules.updateMany({ where: { id: 1, version }, data: { ...rules, version: version + 1 } });
  return count === 1;
}

/** What is sold, for choosing what is taxed; the base service is charged by lines without a service of their own. */
export const taxableServices = (reader: Reader): Promise<{ key: string; name: string; base: boolean }[]> =>
  reader.rows('SELECT key, name, base FROM service ORDER BY position');

export type JobTermsRow = { depositCents: number | null; depositPercent: number | null; dueOn: string | null };

export async function saveJobTerms(tx: Tx, jobId: string, terms: Terms, more: JobTermsRow): Promise<void> {
  await tx.db.job.update({ where: { id: jobId }, data: { terms } });
  const data = { ...more, dueOn: more.dueOn === null ? null : dayIn(more.dueOn) };
  await tx.db.jobTerms.upsert({ where: { jobId }, create: { jobId, ...data }, update: data });
}

/** Sets the shares of the payers of a job, in place of what was said before. */
export async function saveShares(tx: Tx, jobId: string, shares: readonly { partyId: string; weight: number }[]): Promise<void> {
  await execute(tx, 'DELETE FROM payer_share WHERE job_id = $1::uuid', jobId);
  await tx.db.payerShare.createMany({ data: shares.map((share) => ({ jobId, ...share })) });
}
