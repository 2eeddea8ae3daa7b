// What the firm is insured for, and how much each role may approve, also by loan.
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

/** Roles that may approve money. */
export type LimitRole = 'owner' | 'lead_inspector' | 'office_manager';
export type PolicyRow = {
  id: string;
  kind: 'professional' | 'general';
  insurer: string;
  number: string;
  basis: 'claims_made' | 'occurrence';
  startsOn: string;
  endsOn: string;
  retroactiveOn: string | null;
  /** The most for one claim. */
  limitCents: number;
  /** The most for all claims of the period; null = the policy names none. */
  aggregateCents: number | null;
  deductibleCents: number;
  /** What the policy calls a claim. */
  claimMeans: string;
  /** Which circumstances it asks to be reported. */
  reportable: string;
  noticeAddress: string;
};

export const listPolicies = (reader: Reader): Promise<PolicyRow[]> =>
  reader.rows<PolicyRow>(
    `SELECT id::text AS id, kind, insurer, number, basis, starts_on::text AS "startsOn", ends_on::text AS "endsOn", retroactive_on::text AS "retroactiveOn", limit_cents AS "limitCents", aggregate_cents AS "aggregateCents", deductible_cents AS "deductibleCents", claim_means AS "claimMeans", reportable, notice_address AS "noticeAddress"
     FROM insurance_policy ORDER BY ends_on DESC, kind`,
  );

const dated = ({ startsOn, endsOn, retroactiveOn, ...rest }: PolicyRow) => ({
  ...rest,
  startsOn: dayIn(startsOn),
  endsOn: dayIn(endsOn),
  retroactiveOn: retroactiveOn === null ? null : dayIn(retroactiveOn),
});

/** Adds a policy. Constraints: insurance_policy_number_key, insurance_policy_amounts. */
export async function savePolicy(tx: Tx, policy: PolicyRow): Promise<void> {
  await tx.db.insurancePolicy.create({ data: dated(policy) });
}

/** Replaces what is on file of a policy; answers whether there is one. */
export const updatePolicy = async (tx: Tx, policy: PolicyRow): Promise<boolean> =>
  (await tx.db.insurancePolicy.updateMany({ where: { id: policy.id }, data: dated(policy) })).count === 1;

/** `discountCents` is the most that the role may take off a fee by hand; null = no limit of its own. */
export type LimitRow = { role: LimitRole; limitCents: number | null; discountCents: number | null };

export const listLimits = (reader: Reader): Promise<LimitRow[]> =>
  reader.rows<LimitRow>('SELECT role, limit_cents AS "limitCents", discount_cents AS "discountCents" FROM approval_limit ORDER BY role');

export async function putLimit(tx: Tx, role: LimitRole, limitCents: number | null): Promise<void> {
  await tx.db.approvalLimit.upsert({ where: { role }, create: { role, limitCents }, update: { limitCents } });
}

/** A role that has no row yet may approve nothing else alone. */
export async function putDiscountLimit(tx: Tx, role: LimitRole, discountCents: number | null): Promise<void> {
  await tx.db.approvalLimit.upsert({ where: { role }, create: { role, limitCents: 0, discountCents }, update: { discountCents } });
}

export type LoanRow = {
  id: string;
  lenderId: string;
  lenderName: string;
  borrowerId: string;
  borrowerName: string;
  role: LimitRole;
  fromDay: string;
  untilDay: string;
  reason: string;
};
const LOAN = `SELECT l.id::text AS id, l.lender_id::text AS "lenderId", a.name AS "lenderName", l.borrower_id::text AS "borrowerId", b.name AS "borrowerName", l.role, l.from_day::text AS "fromDay", l.until_day::text AS "untilDay", l.reason
  FROM approval_loan l JOIN person a ON a.id = l.lender_id JOIN person b ON b.id = l.borrower_id`;

/** Loans that end today or later. None outlasts its lender: it counts only while the lender works here and holds the role that is lent. */
export const listLoans = (reader: Reader, today: string): Promise<LoanRow[]> =>
  reader.rows<LoanRow>(
    `${LOAN} WHERE l.until_day >= $1::date AND (a.ended_on IS NULL OR a.ended_on > $1::date)
       AND EXISTS (SELECT FROM person_role r WHERE r.person_id = l.lender_id AND r.role = l.role) ORDER BY l.from_day`,
    [today],
  );
export const findLoan = async (reader: Reader, id: string): Promise<LoanRow | null> =>
  (await reader.rows<LoanRow>(`${LOAN} WHERE l.id = $1::uuid`, [id]))[0] ?? null;

export async function saveLoan(
  tx: Tx,
  loan: {
    id: string;
    lenderId: string;
    borrowerId: string;
    role: LimitRole;
    fromDay: string;
    untilDay: string;
    reason: string;
    recordedAt: Date;
  },
): Promise<void> {
  await tx.db.approvalLoan.create({ data: { ...loan, fromDay: dayIn(loan.fromDay), untilDay: dayIn(loan.untilDay) } });
}

/** Ends a loan with the day given, or takes it back whole (null) when it never counted. */
export async function endLoanRow(tx: Tx, id: string, untilDay: string | null): Promise<void> {
  if (untilDay === null) await execute(tx, 'DELETE FROM approval_loan WHERE id = $1::uuid', id);
  else await tx.db.approvalLoan.update({ where: { id }, data: { untilDay: dayIn(untilDay) } });
}
