// Seals a site record: from then on nothing is added and nothing changed.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { missingToSeal } from '@backsight/domain/sitework/seal';
import { closeWithSeal, lockRecord } from '@backsight/store/sitework';
import type { Act, Work } from '../run.ts';
import { isMember, leads, loadRecord, sealFacts } from './steps/loadRecord.ts';
import { sealOf } from './steps/sealText.ts';

type Sealed = { id: string; sha256: string };

export const sealRecord: Act<{ recordId: string }, Sealed> = { operation: 'sitework.seal', run: seal };

async function seal(work: Work, input: { recordId: string }): Promise<Outcome<Sealed>> {
  const locked = await lockRecord(work.tx, input.recordId);
  const loaded = locked && (await loadRecord(work.tx, input.recordId));
  if (!loaded || work.actor.kind !== 'person') return refuse('not-found', { thing: 'site record' });
  if (!isMember(loaded.visit, work.actor) && !leads(work.actor)) return refuse('not-on-this-visit');
  if (loaded.record.state === 'sealed') return refuse('record-sealed');
  const missing = missingToSeal(sealFacts(loaded, loaded.record.endedAs));
  if (missing.length > 0) return refuse('record-has-gaps', { count: missing.length });
  const sha256 = sealOf(loaded);
  await closeWithSeal(work.tx, input.recordId, { sha256, by: work.actor.id, at: work.now });
  await work.did('site-record', input.recordId, { sealed: sha256, entries: loaded.entries.length });
  return accept({ id: input.recordId, sha256 });
}
