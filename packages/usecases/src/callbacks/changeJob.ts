// The office took a callback under the wrong job: it goes to the right one, and the event keeps both.
import { decideJobMove, type JobAhead, type MovingCallback } from '@backsight/domain/callbacks/jobMove';
import { policyFor } from '@backsight/domain/callbacks/policy';
import { countsAsCallback, REMEDIES, type RemedyKind } from '@backsight/domain/callbacks/words';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { conclusionsOf, eventsOf, remediesOf, type CallbackRow } from '@backsight/store/callbacks';
import { findIntake, linksOf } from '@backsight/store/callbacks/intake';
import { findJobForCallback, workedSteps, type JobForCallback } from '@backsight/store/callbacks/job';
import { entriesOf } from '@backsight/store/callbacks/money';
import { casesOf, noticesOf } from '@backsight/store/callbacks/settlement';
import { listPolicies } from '@backsight/store/firm/authority';
import type { Act, Work } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';

export type ChangeJob = { id: string; jobId: string; words: string };

/**
 * Evidence, agreement, claim window, visit and counts follow the new job; clocks go on as they run. Refusals: not-found and those of
 * `decideJobMove`.
 */
export const changeJob: Act<ChangeJob, Done> = {
  operation: 'callbacks.change-job',
  run: (work, input) => withCallback(work, input.id, (callback) => change(work, callback, input)),
};

async function change(work: Work, callback: CallbackRow, { jobId, words }: ChangeJob): Promise<Outcome<Done>> {
  const [before, after] = [(await findJobForCallback(work.tx, callback.jobId))!, await findJobForCallback(work.tx, jobId)];
  if (!after) return refuse('not-found', { thing: 'job' }, 'jobId');
  const decided = decideJobMove(await moving(work, callback, before), await ahead(work, after));
  if (!decided.ok) return decided;
  const changed = { jobId, ...decided.value, policyId: await policyUnder(work, callback, after) };
  return record(
    work,
    callback,
    {
      kind: 'job_changed',
      state: callback.state,
      changed,
      details: { ...changed, fromJobId: before.id },
      words: `From job ${before.number} to job ${after.number}. ${words}`,
    },
    decided.warnings,
  );
}

async function moving(work: Work, callback: CallbackRow, job: JobForCallback): Promise<MovingCallback> {
  const { id, kind, jobId, partyId, duplicateOfId, discoveredOn, servedOn } = callback;
  return {
    ...{ kind, jobId, partyId, discoveredOn, servedOn },
    jobNumber: job.number,
    propertyId: job.propertyId,
    duplicateOf: duplicateOfId,
    linked: (await linksOf(work.tx, id)).length > 0,
    caughtAt: (await findIntake(work.tx, id))?.stepKey ?? null,
    hangs: await hangsOn(work, id),
    insurerTold: (await noticesOf(work.tx, id)).length > 0,
  };
}

/** What was decided, signed or paid under the job. Money that was set aside and taken back whole leaves nothing. */
async function hangsOn(work: Work, id: string): Promise<string[]> {
  const sums = new Map<string, number>();
  for (const { account, cents } of (await entriesOf(work.tx, id)).flatMap(({ lines }) => lines))
    sums.set(account, (sums.get(account) ?? 0) + cents);
  const remedies = (await remediesOf(work.tx, id)).filter(({ state }) => state !== 'refused');
  return [
    ...((await conclusionsOf(work.tx, id)).length > 0 ? ['a conclusion'] : []),
    ...remedies.map(({ kind }) => `a remedy (${REMEDIES[kind as RemedyKind]})`),
    ...([...sums.values()].some((cents) => cents !== 0) ? ['money in the ledger'] : []),
    ...((await casesOf(work.tx, id)).length > 0 ? ['a case at court'] : []),
  ];
}

async function ahead(work: Work, job: JobForCallback): Promise<JobAhead> {
  return {
    ...{ id: job.id, number: job.number, propertyId: job.propertyId, inspectedOn: job.inspectedOn },
    parties: job.parties.map(({ id }) => id),
    signedBy: job.parties.filter(({ signed }) => signed).map(({ id }) => id),
    stepKeys: (await workedSteps(work.tx, job.id)).map(({ stepKey }) => stepKey),
  };
}

/** As at the intake, by the days of the new job; a policy that somebody named stays. */
async function policyUnder(work: Work, { id, kind, policyId, receivedAt }: CallbackRow, job: JobForCallback): Promise<string | null> {
  if (!countsAsCallback(kind) || (await eventsOf(work.tx, id)).some((event) => event.kind === 'policy_named')) return policyId;
  const receivedOn = dayAt(receivedAt, job.zone);
  return policyFor(kind, await listPolicies(work.tx), { receivedOn, inspectedOn: job.inspectedOn ?? receivedOn })?.id ?? null;
}
