// How a callback came in and what it is linked to; and what the intake shows before it saves.
import { seesOpinions, isOwner } from './steps/callback.ts';
import type { Role } from '@backsight/domain/people/roles';
import { findCallback } from '@backsight/store/callbacks';
import { callbacksOfProperty, findIntake, linksOf, stepsOfJob, type LinkedRow } from '@backsight/store/callbacks/intake';
import { photosOfCallback } from '@backsight/store/callbacks/photos';
import type { Reader } from '@backsight/store/database';
import type { MailWords } from './steps/keepIntake.ts';

const shown = ({ id, number, kind, state, system, place, words, receivedAt, jobNumber }: LinkedRow) => ({
  ...{ id, number, kind, state, system, place, words, jobNumber },
  receivedAt: receivedAt.toISOString(),
});

/** null when there is no such callback for this viewer. Linked ones that only the owner sees are left out for others. */
export async function readIntake(reader: Reader, { id, roles }: { id: string; roles: readonly Role[] }) {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(roles))) return null;
  const intake = await findIntake(reader, id);
  const links = (await linksOf(reader, id)).filter(({ ownerOnly }) => !ownerOnly || isOwner(roles));
  const to = (target: string | null) => links.filter((one) => one.id === target).map(shown)[0] ?? null;
  return {
    way: intake?.way ?? null,
    dangers: intake?.dangers ?? [],
    mail: intake?.words ? (JSON.parse(intake.words) as MailWords) : null,
    step: intake ? (intake.stepTitle ?? intake.stepKey) : null,
    caughtBy: intake?.caughtBy ?? null,
    sameAs: to(callback.duplicateOfId),
    cameBackAfter: to(callback.repeatOfId),
    duplicates: links.filter((one) => one.duplicateOfId === id).map(shown),
    cameBackAs: links.filter((one) => one.repeatOfId === id).map(shown),
    photos: (await photosOfCallback(reader, id)).map(({ id: photoId, number, name, by, recordedAt }) => ({
      ...{ id: photoId, number, name, by },
      at: recordedAt.toISOString(),
      mayOpenOriginal: seesOpinions(roles),
    })),
  };
}

/** What was brought before about the property of a job. */
export const readEarlier = async (reader: Reader, { jobId, roles }: { jobId: string; roles: readonly Role[] }) =>
  (await callbacksOfProperty(reader, jobId)).filter(({ ownerOnly }) => !ownerOnly || isOwner(roles)).map(shown);

/** Steps that were handed out on a job, in the order of their titles. */
export const readStepsOfJob = async (reader: Reader, jobId: string) =>
  (await stepsOfJob(reader, jobId)).sort((a, b) => a.system.localeCompare(b.system) || a.title.localeCompare(b.title));
