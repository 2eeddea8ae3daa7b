// What was not reached when a visit ended early, written into the record without a further reason.
import { missingEntries } from '@backsight/domain/sitework/seal';
import { addEntry } from '@backsight/store/sitework';
import type { Work } from '../../run.ts';
import { sealFacts, type LoadedRecord } from './loadRecord.ts';

/** Adds an entry "ended before" at every place that still misses one; answers how many. */
export async function fillNotReached(work: Work, loaded: LoadedRecord, actor: string): Promise<number> {
  const missing = missingEntries(sealFacts(loaded, null));
  const standIn = loaded.pair.includes(actor) ? actor : loaded.pair[0]!;
  for (const [at, { stepKey, itemId, person }] of missing.entries()) {
    const step = loaded.steps.find((s) => s.stepKey === stepKey && s.itemId === itemId)!;
    await addEntry(work.tx, {
      id: work.newId(),
      recordId: loaded.record.id,
      packageId: step.packageId,
      stepKey,
      itemId,
      outcome: 'ended_before',
      value: { evidence: null },
      match: 'not_asked',
      textId: null,
      reason: null,
      observedBy: person ?? standIn,
      writtenBy: actor,
      observedAt: work.now,
      observedApprox: true,
      deviceSeq: at,
      supersedesId: null,
      at: work.now,
    });
  }
  return missing.length;
}
