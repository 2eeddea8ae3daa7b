// What the visits of a callback recorded, step by step beside what was recorded at the inspection.
import type { Role } from '@backsight/domain/people/roles';
import type { Evidence } from '@backsight/domain/procedures/step';
import { sayEntry } from '@backsight/domain/sitework/say';
import { sayAct } from '@backsight/domain/sitework/sayAct';
import type { CouldNotReason, StepOutcome } from '@backsight/domain/sitework/value';
import { findCallback } from '@backsight/store/callbacks';
import { entriesOfJob, recordsOfJob, stepsOfJob, type EntryRow, type WorkedStepRow } from '@backsight/store/callbacks/evidence';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { visitsOfRemedies } from '@backsight/store/callbacks/visits';
import type { Reader } from '@backsight/store/database';
import { loadRecord } from '../sitework/steps/loadRecord.ts';
import { namingOf } from '../sitework/steps/naming.ts';
import { isOwner } from './steps/callback.ts';

/** Null when there is no such callback for this viewer. Visits that were cancelled are left out. */
export async function readVisits(reader: Reader, input: { id: string; roles: readonly Role[] }) {
  const callback = await findCallback(reader, input.id);
  if (!callback || (callback.ownerOnly && !isOwner(input.roles))) return null;
  const { zone } = (await findJobForCallback(reader, callback.jobId))!;
  const first = await entriesOfJob(reader, callback.jobId);
  const items = new Map((await stepsOfJob(reader, callback.jobId)).map((step) => [`${step.stepKey}/${step.itemId}`, step]));
  const thenAt = (step: WorkedStepRow): string[] =>
    first
      .filter((e) => e.stepKey === step.stepKey && e.supersededById === null && sameThing(items.get(`${e.stepKey}/${e.itemId}`), step))
      .map((e) => wordsOf(e, step.evidence as Evidence));
  const all = [];
  for (const visit of await visitsOfRemedies(reader, callback.id)) {
    const [record] = await recordsOfJob(reader, visit.jobId);
    const entries = await entriesOfJob(reader, visit.jobId);
    all.push({
      ...{
        remedyId: visit.remedyId,
        jobId: visit.jobId,
        jobNumber: visit.number,
        pair: visit.pair,
        startsAt: visit.startsAt.toISOString(),
      },
      recordId: record?.recordId ?? null,
      sealedAt: record?.sealedAt?.toISOString() ?? null,
      steps: (await stepsOfJob(reader, visit.jobId)).map((step) => ({
        ...{ stepKey: step.stepKey, title: step.title, item: step.item, then: thenAt(step) },
        now: entries
          .filter((e) => e.stepKey === step.stepKey && e.itemId === step.itemId && e.supersededById === null)
          .map((e) => wordsOf(e, step.evidence as Evidence)),
      })),
      acts: record ? await actsOf(reader, record.recordId, zone) : [],
    });
  }
  return all;
}

/** The same thing of the house goes by its label: each record names its things anew. */
const sameThing = (then: WorkedStepRow | undefined, now: WorkedStepRow): boolean => (then?.item ?? null) === now.item;

function wordsOf(e: EntryRow, asked: Evidence): string {
  const answer = sayEntry(
    { outcome: e.outcome as StepOutcome, evidence: e.value.evidence, reason: e.reason as CouldNotReason | null },
    asked,
  );
  return `${answer}${e.note ? `; ${e.note}` : ''} (${e.observedBy})`;
}

async function actsOf(reader: Reader, recordId: string, zone: string): Promise<string[]> {
  const loaded = (await loadRecord(reader, recordId))!;
  const naming = namingOf(loaded, zone);
  return loaded.acts.map((known) => sayAct(known, naming));
}
