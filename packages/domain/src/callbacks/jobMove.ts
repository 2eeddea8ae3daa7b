// A callback that was taken in under the wrong job goes to the right one, as long as nothing was decided under the first.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { needsVisit, type Kind } from './words.ts';

/**
 * `hangs`: what was decided or paid under the job, in words; `linked`: it is linked to another callback, or another to it; `caughtAt`: the
 * step at which a near-miss was caught. Days are ISO.
 */
export type MovingCallback = {
  kind: Kind;
  jobId: string;
  jobNumber: number;
  propertyId: string;
  partyId: string | null;
  duplicateOf: string | null;
  linked: boolean;
  discoveredOn: string | null;
  servedOn: string | null;
  caughtAt: string | null;
  hangs: readonly string[];
  insurerTold: boolean;
};

/** The job that it goes to. `inspectedOn` null: nobody was there yet. `signedBy`: parties who signed its agreement. */
export type JobAhead = {
  id: string;
  number: number;
  propertyId: string;
  inspectedOn: string | null;
  parties: readonly string[];
  signedBy: readonly string[];
  stepKeys: readonly string[];
};

/** What follows: whether cap, notice clause and claim window of the new agreement bind the one who speaks. */
export type MovedJob = { binding: boolean };

/** Whether it may go there. Refusals besides those of taking in: job-unchanged, job-move-decided, job-move-linked, duplicate-stays-closed. */
export function decideJobMove(callback: MovingCallback, job: JobAhead): Outcome<MovedJob> {
  if (callback.jobId === job.id) return refuse('job-unchanged', { number: job.number }, 'jobId');
  if (callback.duplicateOf !== null) return refuse('duplicate-stays-closed');
  if (callback.hangs.length > 0) return refuse('job-move-decided', { what: callback.hangs, number: callback.jobNumber });
  if (callback.linked && callback.propertyId !== job.propertyId) return refuse('job-move-linked', {}, 'jobId');
  if (job.inspectedOn === null) {
    if (needsVisit(callback.kind)) return refuse('not-visited-yet', {}, 'jobId');
  } else
    for (const day of [callback.discoveredOn, callback.servedOn])
      if (day !== null && day < job.inspectedOn) return refuse('before-the-inspection', { day, inspectedOn: job.inspectedOn }, 'jobId');
  if (callback.caughtAt !== null && !job.stepKeys.includes(callback.caughtAt))
    return refuse('step-not-on-this-job', { step: callback.caughtAt }, 'jobId');
  const { partyId } = callback;
  return accept({ binding: partyId !== null && job.signedBy.includes(partyId) }, warningsOf(callback, job));
}

function warningsOf({ partyId, insurerTold }: MovingCallback, { number, parties }: JobAhead): Warning[] {
  const found: Warning[] = [];
  if (partyId !== null && !parties.includes(partyId))
    found.push({
      code: 'speaker-not-on-job',
      text: `Whoever speaks is nobody of job ${number}: its agreement does not bind them, and their private link does not show this.`,
    });
  if (insurerTold)
    found.push({
      code: 'insurer-knows-other-job',
      text: 'The insurer was told of it under the job before: tell the insurer of the change.',
    });
  return found;
}
