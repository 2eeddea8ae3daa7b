// The site record as one member may see it, and the sealed record as a whole.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { shownStep } from '@backsight/domain/sitework/shown';
import { placeOf } from '@backsight/domain/sitework/value';
import type { Reader } from '@backsight/store/database';
import type { IssuedStep } from '@backsight/store/sitework';
import { openingsOf } from '@backsight/store/sitework/photos';
import type { Actor } from '../run.ts';
import { visitJson } from './readDay.ts';
import { comparisonsOf, handedTo, isMember, leads, loadRecord, withheldIn, type Entry, type LoadedRecord } from './steps/loadRecord.ts';
import { photosShown, spokenShown } from './steps/photos.ts';
import { sealOf } from './steps/sealText.ts';
import { missingIn } from './steps/sealWhole.ts';

/** For a member: everything except the partner's answers that are withheld, of which only the places are named. */
export async function readRecord(reader: Reader, input: { recordId: string; actor: Actor }) {
  const loaded = await loadRecord(reader, input.recordId);
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (input.actor.kind !== 'person' || !handedTo(loaded).has(input.actor.id)) return refuse('not-on-this-visit');
  const hidden = loaded.record.state === 'sealed' ? [] : withheldIn(loaded, input.actor.id);
  const hiddenIds = new Set(hidden.map(({ id }) => id));
  const withheld = [...new Map(hidden.map((entry) => [placeOf(entry), { stepKey: entry.stepKey, itemId: entry.itemId }])).values()];
  return accept({
    ...head(loaded),
    me: input.actor.id,
    sealAskedBy: loaded.record.sealAskedBy,
    aliases: [...loaded.aliases].map(([id, standsFor]) => ({ id, standsFor })),
    steps: loaded.steps.map(stepJson(becauseOf(loaded))),
    entries: loaded.standing.filter(({ id }) => !hiddenIds.has(id)).map(entryJson),
    withheld,
    comparisons: comparisonsOf(loaded),
    missing: missingJson(loaded),
    photos: photosShown(loaded, input.actor, hiddenIds),
    spoken: spokenShown(loaded, input.actor, hiddenIds),
  });
}

/** For the pair, the lead inspector and the owner, once it is sealed: every entry, also those that were corrected, and whether the seal holds. */
export async function readSealedRecord(reader: Reader, input: { recordId: string; actor: Actor }) {
  const loaded = await loadRecord(reader, input.recordId);
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (!isMember(loaded.visit, input.actor) && !leads(input.actor)) return refuse('not-on-this-visit');
  if (loaded.record.state !== 'sealed') return refuse('record-not-sealed');
  const counting = new Set(loaded.standing.map(({ id }) => id));
  return accept({
    ...head(loaded),
    steps: loaded.steps.map(stepJson(becauseOf(loaded))),
    entries: loaded.entries.map((entry) => ({ ...entryJson(entry), counts: counting.has(entry.id) })),
    comparisons: comparisonsOf(loaded),
    photos: photosShown(loaded, input.actor),
    spoken: spokenShown(loaded, input.actor),
    openings: (await openingsOf(reader, input.recordId)).map(({ id, photoId, by, text, recordedAt }) => ({
      id,
      photoId,
      by,
      reason: text,
      at: recordedAt.toISOString(),
    })),
    seal: {
      sha256: loaded.record.sealSha256!,
      sealedAt: loaded.record.sealedAt!.toISOString(),
      holds: sealOf(loaded) === loaded.record.sealSha256,
      startDespiteGate: loaded.packages.some(({ startDespiteGate }) => startDespiteGate),
    },
  });
}

const head = ({ record, visit, items, acts }: LoadedRecord) => ({
  id: record.id,
  state: record.state,
  openedAt: record.openedAt.toISOString(),
  endedAs: record.endedAs,
  visit: visitJson(visit),
  items,
  acts,
});

const missingJson = (loaded: LoadedRecord) =>
  missingIn(loaded).map((m) => ({
    kind: m.kind,
    stepKey: 'stepKey' in m ? m.stepKey : null,
    itemId: 'itemId' in m ? m.itemId : null,
    person: 'person' in m ? m.person : null,
    ref: 'ref' in m ? m.ref : null,
  }));

const becauseOf = ({ packages }: LoadedRecord): Map<string, string> =>
  new Map(
    packages.flatMap(({ body }) =>
      ((body.because ?? []) as { stepKey: string; itemId: string | null; because: string }[]).map((b) => [placeOf(b), b.because] as const),
    ),
  );

const stepJson = (because: Map<string, string>) => (s: IssuedStep) => {
  const { body, stepKey: _key, ...at } = s;
  return shownStep(body, { ...at, because: because.get(placeOf(s)) ?? '' });
};

const entryJson = (e: Entry) => ({
  id: e.id,
  stepKey: e.stepKey,
  itemId: e.itemId,
  outcome: e.outcome,
  evidence: e.value.evidence,
  correction: e.value.correction ?? null,
  match: e.match,
  note: e.note,
  reason: e.reason,
  measures: e.value.measures ?? null,
  filled: e.value.closedBy !== undefined,
  observedBy: e.observedBy,
  writtenBy: e.writtenBy,
  observedAt: e.observedAt.toISOString(),
  observedApprox: e.observedApprox,
  recordedAt: e.recordedAt.toISOString(),
  supersedesId: e.supersedesId,
});
