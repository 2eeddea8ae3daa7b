// What was agreed with the payers of a job: terms, deposit, the day of the closing, shares.
import { DateTime } from 'luxon';
import { depositAsked, dueOn } from '@backsight/domain/fees/billing';
import type { Terms } from '@backsight/domain/jobs/words';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { invoicesOfJob, lockInvoicesOfJob, setInvoiceDue } from '@backsight/store/fees';
import { findJobForInvoice } from '@backsight/store/fees/job';
import { findMoneyRules, saveJobTerms, saveMoneyRules, saveShares, taxableServices, type MoneyRulesRow } from '@backsight/store/fees/rules';
import type { Reader } from '@backsight/store/database';
import { lockJob } from '@backsight/store/jobs/jobs';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { rulesOf } from './steps/moneyRules.ts';

type TermsInput = { jobId: string; terms: Terms; depositCents: number | null; depositPercent: number | null; dueOn: string | null };

/** Invoices that stand are due anew by the terms. Refusals: deposit-terms, closing-day-terms. */
export const setTerms: Act<TermsInput, { id: string }> = {
  operation: 'fees.terms',
  run: async (work, { jobId, terms, ...more }) => {
    if (!(await lockJob(work.tx, jobId))) return refuse('not-found', { thing: 'job' });
    const given = [more.depositCents, more.depositPercent].filter((one) => one !== null).length;
    if (given > 1 || (given === 1 && terms !== 'deposit')) return refuse('deposit-terms', {}, 'depositCents');
    const { zone } = (await findJobForInvoice(work.tx, jobId))!;
    const today = DateTime.fromJSDate(work.now, { zone }).toISODate()!;
    if (more.dueOn !== null && (terms !== 'billed_to_closing' || more.dueOn < today)) return refuse('closing-day-terms', {}, 'dueOn');
    await lockInvoicesOfJob(work.tx, jobId);
    await saveJobTerms(work.tx, jobId, terms, more);
    await dueAnew(work, jobId);
    await work.did('job', jobId, { terms, ...more });
    return accept({ id: jobId });
  },
};

async function dueAnew(work: Work, jobId: string): Promise<void> {
  const job = (await findJobForInvoice(work.tx, jobId))!;
  const rules = rulesOf(await findMoneyRules(work.tx));
  const { depositCents: cents, depositPercent: percent } = job;
  const deposit = cents !== null ? { cents } : percent !== null ? { percent } : null;
  const issuedOn = (at: Date) => DateTime.fromJSDate(at, { zone: job.zone }).toISODate()!;
  for (const invoice of (await invoicesOfJob(work.tx, jobId)).filter(({ state }) => state !== 'withdrawn')) {
    const due = dueOn(job.terms, job.visitOn, issuedOn(invoice.issuedAt!), { dueOn: job.dueOn, closingDays: rules.closingDays });
    await setInvoiceDue(work.tx, invoice.id, due, depositAsked({ terms: job.terms, deposit, rules }, invoice.totalCents));
  }
}

type SharesInput = { jobId: string; shares: readonly { partyId: string; weight: number }[] };

/** Counts when the invoice is issued anew. Refusals: several-payers, shares-of-payers. */
export const setShares: Act<SharesInput, { id: string }> = {
  operation: 'fees.shares',
  run: async (work, { jobId, shares }) => {
    const job = (await lockJob(work.tx, jobId)) && (await findJobForInvoice(work.tx, jobId));
    if (!job) return refuse('not-found', { thing: 'job' });
    const payers = job.parties.filter(({ role }) => role === 'payer');
    if (payers.length > 1 && !(await findMoneyRules(work.tx)).severalPayers)
      return refuse('several-payers', { names: payers.map(({ name }) => name) });
    const once = new Set(shares.map(({ partyId }) => partyId));
    const fits = once.size === shares.length && payers.length === shares.length && payers.every(({ partyId }) => once.has(partyId));
    if (!fits || shares.every(({ weight }) => weight === 0)) return refuse('shares-of-payers', {}, 'shares');
    await saveShares(work.tx, jobId, shares);
    await work.did('job', jobId, { shares: shares.map(({ partyId, weight }) => `${partyId}: ${weight}`) });
    return accept({ id: jobId });
  },
};

/** The terms of a job with its payers and their shares, and the firm's rules behind them; null when there is no such job. */
export async function readTerms(reader: Reader, jobId: string) {
  const job = await findJobForInvoice(reader, jobId);
  if (!job) return null;
  const { number, terms, depositCents, depositPercent, dueOn: closingOn, parties, lines } = job;
  const { severalPayers, depositPercent: usualPercent, closingDays } = await findMoneyRules(reader);
  return {
    number,
    terms,
    depositCents,
    depositPercent,
    dueOn: closingOn,
    feeCents: lines.reduce((sum, { cents }) => sum + cents, 0),
    payers: parties.filter(({ role }) => role === 'payer').map(({ partyId, name, weight }) => ({ partyId, name, weight })),
    rules: { severalPayers, depositPercent: usualPercent, closingDays },
  };
}

/** The firm's rules about money, and what is sold. */
export async function readMoneyRules(reader: Reader) {
  const services = (await taxableServices(reader)).filter(({ base }) => !base);
  return { ...(await findMoneyRules(reader)), services: services.map(({ key, name }) => ({ key, name })) };
}

/** Counts for invoices that are issued from now on. */
export const changeMoneyRules: Act<MoneyRulesRow, { version: number }> = {
  operation: 'fees.rules',
  run: async (work, rules) => {
    if (!(await saveMoneyRules(work.tx, rules))) return refuse('changed-meanwhile');
    const { taxServices, ...rest } = rules;
    await work.did('firm', FIRM_THING, { ...rest, taxServices });
    return accept({ version: rules.version + 1 });
  },
};
