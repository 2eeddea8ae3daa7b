// What the pair did besides the steps, as this phone knows it, and how one more becomes an entry of the record.
import type { MemberRecord } from '@backsight/contract/sitework';
import { actKey, type ActWords, type KnownAct, type SiteAct } from '@backsight/domain/sitework/act';
import { newId } from '../../api/ids.ts';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import type { Waiting } from './useRecord.ts';

/** The acts that the service has, and behind them those that wait here, in the order in which they were made. */
export function actsHere(record: MemberRecord, waiting: readonly Waiting[]): KnownAct[] {
  const known = new Set(record.acts.map(({ id }) => id));
  const here = waiting.flatMap(({ what, state }): KnownAct[] => {
    if (what.kind !== 'entry' || !what.entry.act || state === 'refused' || known.has(what.entry.id)) return [];
    const { id, act, words, observedBy, observedAt, deviceSeq } = what.entry;
    const order = `~${String(deviceSeq).padStart(12, '0')}`;
    return [{ id, act, words: words ?? {}, by: observedBy, writtenBy: record.me, at: observedAt, order }];
  });
  return [...record.acts, ...here];
}

/** An act of now; `by` is who did it, when the partner writes. */
export const actEntry = (
  record: MemberRecord,
  act: SiteAct,
  words: ActWords = {},
  by = record.me,
  photos: readonly string[] = [],
): UncountedEntry => ({
  id: newId(),
  packageId: record.steps[0]!.packageId,
  stepKey: actKey(act.do),
  itemId: null,
  outcome: 'done',
  evidence: null,
  reason: null,
  note: null,
  observedBy: by,
  observedAt: new Date().toISOString(),
  observedApprox: false,
  corrects: null,
  ...(photos.length > 0 ? { photos: [...photos] } : {}),
  act,
  words: Object.fromEntries(Object.entries(words).filter(([, text]) => text.trim() !== '')),
});
