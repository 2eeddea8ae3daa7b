// Ends the visit: how it ended, what was not reached, and what becomes of visit and job. The record stays open until it is sealed.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { missingEntries, type EndedAs } from '@backsight/domain/sitework/seal';
import { jobVisited } from '@backsight/domain/sitework/visit';
import { addEntry, endRecord, lockRecord } from '@backsight/store/sitework';
import { setVisitState } from '@backsight/store/sitework/visit';
import type { Act, Work } from '../run.ts';
import { isMember, leads, loadRecord, sealFacts, type LoadedRecord } from './steps/loadRecord.ts';
import { moveJob } from './steps/moveJob.ts';

type Closed = { id: string; endedAs: EndedAs; notReached: number };

/** Steps that were not reached when a visit ended early need no further reason. */
export const closeVisit: Act<{ recordId: string; endedAs: EndedAs }, Closed> = { operation: 'sitework.end', run: close };

async function close(work: Work, input: { recordId: string; endedAs: EndedAs }): Promise<Outcome<Closed>> {
  const locked = await lockRecord(work.tx, input.recordId);
  const loaded = locked && (await loadRecord(work.tx, input.recordId));
  if (!loaded || work.actor.kind !== 'person') return refuse('not-found', { thing: 'site record' });
  if (!isMember(loaded.visit, work.actor) && !leads(work.actor)) return refuse('not-on-this-visit');
  if (loaded.record.state === 'sealed') return refuse('record-sealed');
  if (loaded.record.endedAs !== null) return refuse('record-ended');
  const notReached = input.endedAs === 'complete' ? 0 : await fillIn(work, loaded, work.actor.id);
  await endRecord(work.tx, input.recordId, input.endedAs);
  await setVisitState(work.tx, loaded.visit.id, 'done');
  await moveJob(work, loaded.visit.jobId, 'visited', jobVisited, { visitId: loaded.visit.id, endedAs: input.endedAs });
  await work.did('site-record', input.recordId, { endedAs: input.endedAs, notReached });
  return accept({ id: input.recordId, endedAs: input.endedAs, notReached });
}

async function fillIn(work: Work, loaded: LoadedRecord, actor: string): Promise<number> {
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
