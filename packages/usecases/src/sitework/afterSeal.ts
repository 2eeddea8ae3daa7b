// Supplements of a sealed record, and giving it out by an owner's act.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mayAddSupplement, type GivenTo } from '@backsight/domain/sitework/afterSeal';
import type { Reader } from '@backsight/store/database';
import { findRecord } from '@backsight/store/sitework';
import { addGivenOut, addSupplement, givenOutOf, supplementsOf } from '@backsight/store/sitework/afterSeal';
import { findVisit } from '@backsight/store/sitework/visit';
import { keepText } from '@backsight/store/text';
import type { Act, Actor } from '../run.ts';
import { isMember, leads } from './steps/loadRecord.ts';

type Made = { id: string };

/** By one of the pair or by those who lead. Refusals: supplement-of-open-record, supplement-ahead, supplement-before-visit, not-on-this-visit. */
export const supplementRecord: Act<{ recordId: string; id: string; text: string; happenedAt: string }, Made> = {
  operation: 'sitework.supplement',
  run: async (work, { recordId, id, text, happenedAt }) => {
    const found = await recordFor(work.tx, recordId, work.actor);
    if (!found.ok) return found;
    if (work.actor.kind !== 'person') return refuse('not-on-this-visit');
    const at = new Date(happenedAt);
    const may = mayAddSupplement(found.value, at, work.now);
    if (!may.ok) return may;
    const textId = await keepText(work.tx, work.newId(), text, work.now);
    await addSupplement(work.tx, { id, recordId, textId, writtenBy: work.actor.id, happenedAt: at, recordedAt: work.now });
    await work.did('site-record', recordId, { supplement: id });
    return accept({ id });
  },
};

/** Refusals: record-not-sealed. The route lets owners in only. */
export const giveOutRecord: Act<{ recordId: string; id: string; to: GivenTo; words: string }, Made> = {
  operation: 'sitework.give-out',
  run: async (work, { recordId, id, to, words }) => {
    const found = await recordFor(work.tx, recordId, work.actor);
    if (!found.ok) return found;
    if (found.value.state !== 'sealed' || found.value.sealSha256 === null) return refuse('record-not-sealed');
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const textId = await keepText(work.tx, work.newId(), words, work.now);
    const row = { id, recordId, toKind: to, textId, sealSha256: found.value.sealSha256, givenBy: work.actor.id };
    await addGivenOut(work.tx, { ...row, happenedAt: work.now, recordedAt: work.now });
    await work.did('site-record', recordId, { givenOut: id, to });
    return accept({ id });
  },
};

export async function readAfterSeal(reader: Reader, { recordId, actor }: { recordId: string; actor: Actor }) {
  const found = await recordFor(reader, recordId, actor);
  if (!found.ok) return found;
  const iso = (at: Date): string => at.toISOString();
  return accept({
    supplements: (await supplementsOf(reader, recordId)).map((s) => ({
      ...s,
      happenedAt: iso(s.happenedAt),
      recordedAt: iso(s.recordedAt),
    })),
    givenOut: (await givenOutOf(reader, recordId)).map(({ toKind, ...g }) => ({
      ...g,
      to: toKind as GivenTo,
      happenedAt: iso(g.happenedAt),
    })),
  });
}

type Found = NonNullable<Awaited<ReturnType<typeof findRecord>>>;

async function recordFor(reader: Reader, recordId: string, actor: Actor): Promise<Outcome<Found>> {
  const record = await findRecord(reader, recordId);
  const visit = record && (await findVisit(reader, record.visitId));
  if (!record || !visit) return refuse('not-found', { thing: 'site record' });
  return isMember(visit, actor) || leads(actor) ? accept(record) : refuse('not-on-this-visit');
}
