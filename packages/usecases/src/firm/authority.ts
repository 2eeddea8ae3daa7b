// How much a role may approve alone, and lending one's authority to a named person for stated days.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { loanEndsOn, mayLend } from '@backsight/domain/firm/rules';
import { endLoanRow, findLoan, putDiscountLimit, putLimit, saveLoan, type LimitRole } from '@backsight/store/firm/authority';
import { findPerson } from '@backsight/store/people';
import type { Act, Work } from '../run.ts';
import { FIRM_THING, localDay } from './steps/localDay.ts';

export const setLimit: Act<{ role: LimitRole; limitCents: number | null }, { role: LimitRole }> = {
  operation: 'firm.set-approval-limit',
  run: set,
};

async function set(
  work: Work,
  { role, limitCents }: { role: LimitRole; limitCents: number | null },
): Promise<Outcome<{ role: LimitRole }>> {
  if (role === 'owner' && limitCents !== null) return refuse('owner-limit-open', {}, 'limitCents');
  await putLimit(work.tx, role, limitCents);
  await work.did('firm', FIRM_THING, { role, limitCents });
  return accept({ role });
}

type DiscountLimit = { role: LimitRole; discountCents: number | null };

/** Refusal: owner-limit-open. */
export const setDiscountLimit: Act<DiscountLimit, { role: LimitRole }> = {
  operation: 'firm.set-discount-limit',
  run: async (work, { role, discountCents }) => {
    if (role === 'owner' && discountCents !== null) return refuse('owner-limit-open', {}, 'discountCents');
    await putDiscountLimit(work.tx, role, discountCents);
    await work.did('firm', FIRM_THING, { role, discountCents });
    return accept({ role });
  },
};

export type LendInput = { id: string; borrowerId: string; role: LimitRole; fromDay: string; untilDay: string; reason: string };

export const lendAuthority: Act<LendInput, { id: string }> = { operation: 'firm.lend-authority', run: lend };

async function lend(work: Work, loan: LendInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const borrower = await findPerson(work.tx, loan.borrowerId);
  if (!borrower) return refuse('not-found', { thing: 'person' }, 'borrowerId');
  const { today } = await localDay(work.tx, work.now);
  const allowed = mayLend({ lenderId: work.actor.id, lenderRoles: work.actor.roles, borrowerEndedOn: borrower.endedOn, today }, loan);
  if (!allowed.ok) return allowed;
  await saveLoan(work.tx, { ...loan, lenderId: work.actor.id, recordedAt: work.now });
  await work.did('approval-loan', loan.id, {
    borrowerId: loan.borrowerId,
    role: loan.role,
    fromDay: loan.fromDay,
    untilDay: loan.untilDay,
  });
  return accept({ id: loan.id });
}

export const endLoan: Act<{ id: string }, { id: string }> = { operation: 'firm.end-loan', run: end };

async function end(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const loan = await findLoan(work.tx, id);
  if (!loan) return refuse('not-found', { thing: 'loan of authority' });
  if (work.actor.kind !== 'person' || (loan.lenderId !== work.actor.id && !work.actor.roles.includes('owner')))
    return refuse('not-allowed');
  const { today, yesterday } = await localDay(work.tx, work.now);
  if (loan.untilDay < today) return refuse('loan-past');
  const untilDay = loanEndsOn(loan.fromDay, today, yesterday);
  await endLoanRow(work.tx, id, untilDay);
  await work.did('approval-loan', id, { untilDay, before: loan.untilDay });
  return accept({ id });
}
