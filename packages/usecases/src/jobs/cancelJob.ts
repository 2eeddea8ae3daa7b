// Cancels a job that has not begun, with the reason: its pair is free, its invoices are withdrawn except what is charged for a late cancelling, its
// signing links are closed, and its clients are told.
import { mayCancel } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { chargeLine } from '@backsight/domain/sitework/ending';
import { lockAgreementOfJob, newestAgreement } from '@backsight/store/agreements';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import { invoicesOfJob } from '@backsight/store/fees';
import { dropNeeds, lockJob } from '@backsight/store/jobs/jobs';
import { endVisits } from '@backsight/store/schedule/visits';
import { keepText } from '@backsight/store/text';
import { invoiceTheFee } from '../fees/steps/carryOver.ts';
import { withdrawInvoices } from '../fees/steps/withdrawInvoices.ts';
import type { Act, Work } from '../run.ts';
import { replaceLines } from './steps/feeLines.ts';
import { lateFeeOf, unsaidWaiver, type LateFee, type Waiver } from './steps/lateFee.ts';
import { noteJob } from './steps/loadJob.ts';
import { tellCancelled } from './steps/tellClients.ts';

export type CancelInput = Waiver & { id: string; version: number; reason: string };

/** A late cancelling is charged by the rule unless it is waived, with the reason. Refusals: job-is, waiver-reason. */
export const cancelJob: Act<CancelInput, { id: string; version: number }> = { operation: 'jobs.cancel', run: cancel };

async function cancel(work: Work, input: CancelInput): Promise<Outcome<{ id: string; version: number }>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayCancel(job.state);
  if (!allowed.ok) return allowed;
  const before = (await findJobForAgreement(work.tx, job.id))!;
  const startsAt = new Date(before.visit?.startsAt ?? work.now);
  const fee = await lateFeeOf(work.tx, job, { startsAt, now: work.now }, 'cancel');
  const unsaid = unsaidWaiver(fee, input);
  if (unsaid) return unsaid;
  const kept = fee && !input.waive ? fee : null;
  const visits = await endVisits(work.tx, job.id, 'cancelled');
  const closed = await closePapers(work, before, job.state === 'booked', kept);
  if (!closed.ok) return closed;
  await dropNeeds(work.tx, job.id, work.now);
  const words = fee && input.waive ? `${input.reason}\nThe charge for cancelling late is waived: ${input.waiver}` : input.reason;
  const textId = await keepText(work.tx, work.newId(), words, work.now);
  const details = {
    visits,
    keptCents: kept?.cents ?? 0,
    waived: fee !== null && kept === null,
    waivedCents: kept === null ? (fee?.cents ?? 0) : 0,
  };
  const version = await noteJob(work, job.id, 'cancelled', { kind: 'cancelled', details }, textId);
  await work.did('job', job.id, { state: 'cancelled', before: job.state, ...details, withdrawn: closed.value });
  return accept({ id: job.id, version });
}

/** The invoices that were withdrawn. Nobody signs while this is decided; clients of a job that was only held were never written to. */
async function closePapers(work: Work, job: JobForAgreement, booked: boolean, kept: LateFee | null): Promise<Outcome<string[]>> {
  await lockAgreementOfJob(work.tx, job.id);
  const askedToSign = (await newestAgreement(work.tx, job.id)) !== null;
  const standing = (await invoicesOfJob(work.tx, job.id)).filter(({ state }) => state !== 'withdrawn');
  if (!kept) {
    const { numbers, toGiveBack } = await withdrawInvoices(work, job.id, job.zone);
    if (booked) await tellCancelled(work, job, { paid: toGiveBack, askedToSign, kept: null });
    return accept(numbers.map(String));
  }
  await replaceLines(work, job.id, [
    ...kept.lines,
    ...chargeLine(kept, 'cancelled-late', 'Cancelled late', `less than ${kept.hours} hours before`),
  ]);
  const invoiced = await invoiceTheFee(work, job.id);
  if (!invoiced.ok) return invoiced;
  const payer = standing.find(({ paidCents }) => paidCents > 0)?.payerId;
  const back = payer && invoiced.value.toGiveBackCents > 0 ? [{ payerId: payer, cents: invoiced.value.toGiveBackCents }] : [];
  await tellCancelled(work, job, { paid: back, askedToSign, kept });
  return accept(standing.map(({ number }) => String(number)));
}
