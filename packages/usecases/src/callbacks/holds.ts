// Holds on the evidence of a job, set by hand with a reason and lifted by an owner with one; an open callback holds it without anybody's doing.
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findHold, heldBecause, holdingCallbacks, holdsOfJob, saveHold, saveLift } from '@backsight/store/callbacks/hold';
import type { Reader } from '@backsight/store/database';
import { lockJob } from '@backsight/store/jobs/jobs';
import { keepText } from '@backsight/store/text';
import type { Act } from '../run.ts';
import { actorId, isOwner, seesOpinions } from './steps/callback.ts';

export const holdEvidence: Act<{ jobId: string; holdId: string; words: string }, { id: string }> = {
  operation: 'callbacks.hold-evidence',
  run: async (work, { jobId, holdId, words }) => {
    if (!(await lockJob(work.tx, jobId))) return refuse('not-found', { thing: 'job' });
    const textId = await keepText(work.tx, work.newId(), words, work.now);
    await saveHold(work.tx, { id: holdId, jobId, textId, actorId: actorId(work.actor)!, at: work.now });
    await work.did('job', jobId, { evidenceHeld: holdId });
    return accept({ id: holdId });
  },
};

export const liftHold: Act<{ holdId: string; words: string }, { id: string }> = {
  operation: 'callbacks.lift-hold',
  run: async (work, { holdId, words }) => {
    const hold = await findHold(work.tx, holdId);
    if (!hold) return refuse('not-found', { thing: 'hold' });
    if (hold.liftedAt) return refuse('hold-lifted');
    const textId = await keepText(work.tx, work.newId(), words, work.now);
    await saveLift(work.tx, { holdId, textId, actorId: actorId(work.actor)!, at: work.now });
    await work.did('job', hold.jobId, { evidenceHoldLifted: holdId });
    return accept({ id: holdId });
  },
};

/** Whether and why the evidence of a job is held. Matters of the owner alone, and the reasons of holds, are told to those only who may know. */
export async function readHold(reader: Reader, { jobId, roles }: { jobId: string; roles: readonly Role[] }) {
  const callbacks = (await holdingCallbacks(reader, jobId)).filter(({ ownerOnly }) => !ownerOnly || isOwner(roles));
  return {
    held: (await heldBecause(reader, jobId)) !== null,
    callbacks: callbacks.map(({ number }) => number),
    holds: (await holdsOfJob(reader, jobId)).map(({ id, reason, by, at, liftReason, liftedBy, liftedAt }) => ({
      ...{ id, by, at: at.toISOString(), liftedBy, liftedAt: liftedAt?.toISOString() ?? null },
      ...(seesOpinions(roles) ? { reason: reason ?? '(erased)', liftReason } : {}),
    })),
  };
}
