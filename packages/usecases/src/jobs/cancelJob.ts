// Cancels a job that has not begun, with the reason: its pair is free, its invoices are withdrawn, its signing links are closed, and its clients are told.
import { mayCancel } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockAgreementOfJob, newestAgreement } from '@backsight/store/agreements';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import { dropNeeds, lockJob } from '@backsight/store/jobs/jobs';
import { endVisits } from '@backsight/store/schedule/visits';
import { keepText } from '@backsight/store/text';
import { withdrawInvoices } from '../fees/steps/withdrawInvoices.ts';
import type { Act, Work } from '../run.ts';
import { noteJob } from './steps/loadJob.ts';
import { tellCancelled } from './steps/tellClients.ts';

export const cancelJob: Act<{ id: string; version: number; reason: string }, { id: string; version: number }> = {
  operation: 'jobs.cancel',
  run: cancel,
};

async function cancel(
  work: Work,
  input: { id: string; version: number; reason: string },
): Promise<Outcome<{ id: string; version: number }>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayCancel(job.state);
  if (!allowed.ok) return allowed;
  const before = (await findJobForAgreement(work.tx, job.id))!;
  const withdrawn = await closePapers(work, before, job.state === 'booked');
  const visits = await endVisits(work.tx, job.id, 'cancelled');
  await dropNeeds(work.tx, job.id, work.now);
  const textId = await keepText(work.tx, work.newId(), input.reason, work.now);
  const version = await noteJob(work, job.id, 'cancelled', { kind: 'cancelled', details: { visits } }, textId);
  await work.did('job', job.id, { state: 'cancelled', before: job.state, visits, withdrawn });
  return accept({ id: job.id, version });
}

/** The invoices that were withdrawn. Nobody signs while this is decided; clients of a job that was only held were never written to. */
async function closePapers(work: Work, job: JobForAgreement, booked: boolean): Promise<string[]> {
  await lockAgreementOfJob(work.tx, job.id);
  const { numbers, toGiveBack } = await withdrawInvoices(work, job.id, job.zone);
  if (booked) await tellCancelled(work, job, toGiveBack, (await newestAgreement(work.tx, job.id)) !== null);
  return numbers.map(String);
}
