// Seals a site record: from then on nothing is added and nothing changed.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { askForSeal, lockRecord } from '@backsight/store/sitework';
import type { Act, Work } from '../run.ts';
import { isMember, leads, loadRecord } from './steps/loadRecord.ts';
import { closeRecord, missingIn } from './steps/sealWhole.ts';

/** `whenSent`: while something misses, the wish is kept, and the record is sealed as soon as everything of both phones is there. */
type Sealing = { recordId: string; whenSent?: boolean };
/** `sha256` is null while it is not sealed yet. */
type Sealed = { id: string; sha256: string | null };

export const sealRecord: Act<Sealing, Sealed> = { operation: 'sitework.seal', run: seal };

async function seal(work: Work, { recordId, whenSent = false }: Sealing): Promise<Outcome<Sealed>> {
  const locked = await lockRecord(work.tx, recordId);
  const loaded = locked && (await loadRecord(work.tx, recordId));
  if (!loaded || work.actor.kind !== 'person') return refuse('not-found', { thing: 'site record' });
  if (!isMember(loaded.visit, work.actor) && !leads(work.actor)) return refuse('not-on-this-visit');
  if (loaded.record.state === 'sealed' && !whenSent) return refuse('record-sealed');
  const missing = loaded.record.state === 'sealed' ? [] : missingIn(loaded);
  if (missing.length > 0 && !whenSent) return refuse('record-has-gaps', { count: missing.length });
  if (missing.length === 0 && loaded.record.state === 'open')
    return accept({ id: recordId, sha256: await closeRecord(work, loaded, work.actor.id) });
  if (loaded.record.state === 'open') await askForSeal(work.tx, recordId, { by: work.actor.id, at: work.now });
  await work.did('site-record', recordId, { sealAsked: true, missing: missing.length });
  return accept({ id: recordId, sha256: loaded.record.sealSha256 });
}
