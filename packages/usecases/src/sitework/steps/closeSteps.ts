// Steps that a stop or a danger closed: recorded as could not be inspected, unsafe, without another word from anybody.
import { missingEntries } from '@backsight/domain/sitework/seal';
import { closes } from '@backsight/domain/sitework/hazards';
import type { SiteAct } from '@backsight/domain/sitework/act';
import { standingEntries } from '@backsight/domain/sitework/standing';
import { placeOf } from '@backsight/domain/sitework/value';
import { addEntry } from '@backsight/store/sitework';
import type { Work } from '../../run.ts';
import { known, type LoadedRecord } from './loadRecord.ts';

/** `act` closed what has no entry yet; answers how many. The filled entries count until somebody really looks. */
export async function closeSteps(work: Work, loaded: LoadedRecord, by: { id: string; act: SiteAct; person: string }): Promise<number> {
  const closed = loaded.steps.filter(({ stepKey, system, itemId, body: { per, place = null } }) =>
    closes(by.act, { stepKey, system, itemId, per, place }),
  );
  const { pair, record } = loaded;
  const missing = missingEntries({ places: closed, entries: standingEntries(loaded.entries), pair, endedAs: record.endedAs });
  for (const [at, { stepKey, itemId, person }] of missing.entries()) {
    const step = closed.find((s) => placeOf(s) === placeOf({ stepKey, itemId }))!;
    const row = {
      id: work.newId(),
      packageId: step.packageId,
      stepKey,
      itemId,
      outcome: 'could_not' as const,
      reason: 'unsafe' as const,
      value: { evidence: null, closedBy: by.id },
      match: 'not_asked' as const,
      observedBy: person ?? by.person,
      writtenBy: by.person,
      observedAt: work.now,
      observedApprox: true,
      deviceSeq: at,
      supersedesId: null,
    };
    await addEntry(work.tx, { ...row, recordId: loaded.record.id, textId: null, at: work.now });
    loaded.entries.push(known({ ...row, note: null, noteDigest: null, recordedAt: work.now }));
  }
  return missing.length;
}
