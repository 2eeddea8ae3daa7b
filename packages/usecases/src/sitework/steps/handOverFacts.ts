// What the hand-over of a report looks at: the seal, the signatures as the gate sees them whatever was let pass at the start, and the money.
import type { HandOverState } from '@backsight/domain/sitework/report';
import { findGateFacts } from '@backsight/store/agreements/job';
import type { Reader } from '@backsight/store/database';
import { invoicesOfJob } from '@backsight/store/fees';
import { findMoneyRules } from '@backsight/store/fees/rules';
import type { ReportJob } from '@backsight/store/sitework/report';
import { gateOf } from '../../agreements/steps/gate.ts';

/** Paid in full, unless the fee is billed to closing, or the firm hands over without waiting for it. */
export async function handOverFacts(reader: Reader, job: ReportJob): Promise<HandOverState> {
  const visit = job.visits[0];
  const gate = visit ? await gateOf(reader, visit.id) : { missing: ['agreement-unsigned'] };
  const invoices = (await invoicesOfJob(reader, job.jobId)).filter(({ state }) => state !== 'withdrawn');
  const invoiced = invoices.reduce((total, { totalCents }) => total + totalCents, 0);
  const open = invoices.reduce((total, { balanceCents }) => total + Math.max(0, balanceCents), 0);
  const { feeCents } = await findGateFacts(reader, job.jobId);
  const { paidBeforeHandOver } = await findMoneyRules(reader);
  return {
    sealed: visit?.recordState === 'sealed',
    signed: !gate.missing.some((code) => code === 'agreement-unsigned'),
    paid: open <= 0 && invoiced >= feeCents,
    payLater: job.terms === 'billed_to_closing' || !paidBeforeHandOver,
  };
}
