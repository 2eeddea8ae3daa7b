// Takes in what was seen at the steps: a batch from one phone, each entry judged by itself and stored once, however often it is sent.
import type { Step } from '@backsight/domain/procedures/step';
import { accept, refuse, type Outcome, type Refusal, type Warning } from '@backsight/domain/shared/outcome';
import { checkEntry, type GivenEntry } from '@backsight/domain/sitework/entry';
import { isPossible } from '@backsight/domain/sitework/possible';
import type { ActWords, SiteAct } from '@backsight/domain/sitework/act';
import { standingEntries } from '@backsight/domain/sitework/standing';
import { placeOf, type CorrectionReason, type EntryMatch } from '@backsight/domain/sitework/value';
import { addEntry, knownEntries, lockRecord } from '@backsight/store/sitework';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { handOf, type Device, type Hand } from './steps/hand.ts';
import { handedTo, known, loadRecord, withheldIn, type Entry, type LoadedRecord } from './steps/loadRecord.ts';
import { sealIfAsked } from './steps/sealWhole.ts';
import { sentenceOf } from './steps/sentence.ts';
import { takeAct } from './steps/takeAct.ts';

export type EntryInput = GivenEntry & {
  id: string;
  packageId: string;
  stepKey: string;
  itemId: string | null;
  observedBy: string;
  observedAt: string;
  observedApprox: boolean;
  /** By the device's clock. */
  writtenAt?: string;
  /** Photos that follow. */
  photos?: string[];
  /** Spoken notes that follow. */
  spoken?: string[];
  /** Counter of the device: the order of entries, whatever its clock says. */
  deviceSeq: number;
  /** Takes the place of an earlier entry of the same person. */
  corrects: { entryId: string; why: CorrectionReason } | null;
  /** What was done besides the steps; such an entry has no evidence of its own. */
  act?: SiteAct;
  words?: ActWords;
};
export type EntryResult = {
  id: string;
  stored: boolean;
  match: EntryMatch | null;
  warnings: Warning[];
  code: string | null;
  sentence: string | null;
  field: string | null;
};
type Reply = { results: EntryResult[] };
export type Batch = {
  recordId: string;
  entries: EntryInput[];
  /** Entries that could not be read, with what is wrong. */
  unreadable?: { id: string; field: string; why: string }[];
} & Device;

/** As many as one transaction takes in a few seconds; what is beyond waits for the next batch. */
const MOST = 200;

/** Every entry gets its own answer: one that is refused does not keep the others out. */
export const recordEntries: Act<Batch, Reply> = {
  operation: 'sitework.record',
  keepKeyForEver: true,
  run: record,
};

async function record(work: Work, input: Batch): Promise<Outcome<Reply>> {
  const locked = await lockRecord(work.tx, input.recordId);
  const loaded = locked && (await loadRecord(work.tx, input.recordId));
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (work.actor.kind !== 'person' || !handedTo(loaded).has(work.actor.id)) return refuse('not-on-this-visit');
  const stored = new Map(
    (
      await knownEntries(
        work.tx,
        input.entries.map(({ id }) => id),
      )
    ).map((row) => [row.id, row]),
  );
  const results = (input.unreadable ?? []).map(({ id, field, why }) => refused(id, refuse('entry-unreadable', { why }, field)));
  const hand = await handOf(work, work.actor.id, input);
  for (const [at, entry] of [...input.entries].sort((a, b) => a.deviceSeq - b.deviceSeq).entries()) {
    const before = stored.get(entry.id);
    const result = before
      ? before.recordId === input.recordId
        ? took(entry.id, before.match)
        : refused(entry.id, refuse('entry-id-used', {}, 'id'))
      : at >= MOST
        ? refused(entry.id, refuse('batch-full', { most: MOST }))
        : await take(work, loaded, entry, hand);
    if (result.stored) stored.set(entry.id, { id: entry.id, recordId: input.recordId, match: result.match ?? 'not_asked' });
    results.push(result);
  }
  await work.did('site-record', input.recordId, {
    stored: results.filter((r) => r.stored).length,
    refused: results.filter((r) => !r.stored).length,
  });
  if (locked.sealAskedBy !== null) await sealIfAsked(work, input.recordId);
  return accept({ results });
}

const took = (id: string, match: EntryMatch, warnings: Warning[] = []): EntryResult => ({
  id,
  stored: true,
  match,
  warnings,
  code: null,
  sentence: null,
  field: null,
});
const refused = (id: string, r: Refusal): EntryResult => ({
  id,
  stored: false,
  match: null,
  warnings: [],
  code: r.code,
  sentence: sentenceOf(r),
  field: r.field ?? null,
});

async function take(work: Work, loaded: LoadedRecord, given: EntryInput, hand: Hand): Promise<EntryResult> {
  if (loaded.record.state === 'sealed') return refused(given.id, refuse('record-sealed'));
  if (hand.refusal) return refused(given.id, hand.refusal);
  const entry = { ...hand.setRight(renamed(loaded, given)), device: hand.on(given.writtenAt) };
  const { writer } = hand;
  if (entry.act) {
    const done = await takeAct(work, loaded, { ...entry, act: entry.act, words: entry.words ?? {} }, writer);
    return done.ok ? took(entry.id, 'not_asked', done.warnings) : refused(entry.id, done);
  }
  const fits = checkPlace(loaded, entry, writer);
  if (!fits.ok) return refused(entry.id, fits);
  const checked = checkEntry({ step: fits.value.body, item: loaded.items.find(({ id }) => id === entry.itemId) ?? null }, entry, {
    earlier: looksBack(fits.value.body) ? visibleTo(writer, loaded) : [],
    stepKeys: new Set(loaded.steps.map(({ stepKey }) => stepKey)),
  });
  if (!checked.ok) return refused(entry.id, checked);
  await save(work, loaded, entry, writer, checked.value.match);
  return took(entry.id, checked.value.match, checked.warnings);
}

/** Ids that a second phone gave to what the record already had, as the record knows them. */
const renamed = ({ aliases }: LoadedRecord, entry: EntryInput): EntryInput =>
  aliases.size === 0
    ? entry
    : (JSON.parse(JSON.stringify(entry), (_key, value: unknown) =>
        typeof value === 'string' ? (aliases.get(value) ?? value) : value,
      ) as EntryInput);

/** Only such a step is compared with what was recorded before it. */
const looksBack = ({ after, evidence }: Step): boolean =>
  after.length > 0 || (evidence.kind === 'count' && evidence.mustMatch !== undefined);

/** Entries that the writer may know of: a comparison must not give away what the partner has recorded. */
const visibleTo = (writer: string, loaded: LoadedRecord): Entry[] => {
  const hidden = new Set(withheldIn(loaded, writer).map(({ id }) => id));
  return standingEntries(loaded.entries.filter(({ id }) => !hidden.has(id)));
};

function checkPlace(loaded: LoadedRecord, entry: EntryInput, writer: string): Outcome<LoadedRecord['steps'][number]> {
  if (!loaded.packages.some(({ id }) => id === entry.packageId)) return refuse('package-unknown', {}, 'packageId');
  const step = loaded.steps.find((s) => placeOf(s) === placeOf(entry));
  if (!step) return refuse('step-not-in-package', {}, 'stepKey');
  if (!handedTo(loaded).has(entry.observedBy)) return refuse('observer-not-on-visit', {}, 'observedBy');
  if (!isPossible(entry.evidence)) return refuse('entry-impossible', {}, 'evidence');
  if (step.partnerCheck && entry.observedBy !== writer) return refuse('partner-check-own-hand', {}, 'observedBy');
  const no = entry.corrects && checkCorrection(loaded, entry, entry.corrects.entryId);
  return no ?? accept(step);
}

function checkCorrection(loaded: LoadedRecord, entry: EntryInput, oldId: string): Refusal | null {
  const old = loaded.entries.find(({ id }) => id === oldId);
  if (!old) return refuse('not-found', { thing: 'entry to correct' }, 'corrects.entryId');
  return old.observedBy !== entry.observedBy || placeOf(old) !== placeOf(entry) ? refuse('entry-of-another', {}, 'corrects.entryId') : null;
}

type Handed = EntryInput & { device: ReturnType<Hand['on']> };

async function save(work: Work, loaded: LoadedRecord, entry: Handed, writer: string, match: EntryMatch): Promise<void> {
  const { id, packageId, stepKey, itemId, outcome, reason, observedBy, observedApprox, deviceSeq } = entry;
  const textId = entry.note === null ? null : await keepText(work.tx, work.newId(), entry.note, work.now);
  const value = {
    evidence: entry.evidence,
    ...(entry.corrects ? { correction: entry.corrects.why } : {}),
    ...(entry.measures ? { measures: entry.measures } : {}),
    ...(entry.photos?.length ? { photos: entry.photos } : {}),
    ...(entry.spoken?.length ? { spoken: entry.spoken } : {}),
  };
  const row = {
    id,
    packageId,
    stepKey,
    itemId,
    outcome,
    reason,
    observedBy,
    observedApprox,
    deviceSeq,
    value,
    match,
    writtenBy: writer,
    ...entry.device,
    observedAt: new Date(entry.observedAt),
    supersedesId: entry.corrects?.entryId ?? null,
  };
  await addEntry(work.tx, { ...row, recordId: loaded.record.id, textId, at: work.now });
  loaded.entries.push(known({ ...row, note: entry.note, noteDigest: null, recordedAt: work.now }));
}
