// Seals a record that nothing is missing in; and does it by itself, once that was asked for and everything of both phones is there.
import { missingToSeal, type Missing } from '@backsight/domain/sitework/seal';
import { closeWithSeal } from '@backsight/store/sitework';
import type { Work } from '../../run.ts';
import { loadRecord, sealFacts, type LoadedRecord } from './loadRecord.ts';
import { sealOf } from './sealText.ts';

export const missingIn = (loaded: LoadedRecord): Missing[] => missingToSeal(sealFacts(loaded, loaded.record.endedAs));

/** Answers the fingerprint. */
export async function closeRecord(work: Work, loaded: LoadedRecord, by: string): Promise<string> {
  const sha256 = sealOf(loaded);
  await closeWithSeal(work.tx, loaded.record.id, { sha256, by, at: work.now });
  await work.did('site-record', loaded.record.id, { sealed: sha256, entries: loaded.entries.length });
  return sha256;
}

/** After something came in: seals for whoever asked for it. The record is locked. */
export async function sealIfAsked(work: Work, recordId: string): Promise<void> {
  const loaded = await loadRecord(work.tx, recordId);
  const by = loaded?.record.sealAskedBy;
  if (loaded && by && loaded.record.state === 'open' && missingIn(loaded).length === 0) await closeRecord(work, loaded, by);
}
