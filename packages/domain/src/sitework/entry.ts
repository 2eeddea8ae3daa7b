// Takes in one entry: does its evidence fit the step, and how does it compare with what was expected?
import type { Evidence, Step } from '../procedures/step.ts';
import { accept, refuse, type Outcome, type Refusal, type Warning } from '../shared/outcome.ts';
import type { Measures } from './accessLimits.ts';
import type { RecordItem } from './items.ts';
import type { CouldNotReason, EntryEvidence, EntryMatch, KnownEntry, StepOutcome } from './value.ts';

export type GivenEntry = {
  outcome: StepOutcome;
  evidence: EntryEvidence | null;
  reason: CouldNotReason | null;
  note: string | null;
  /** Measured access, where that is why it could not be inspected. */
  measures?: Measures | null;
  /** Photos that were taken for it; they may come later. */
  photos?: readonly string[];
  /** Spoken notes that were recorded for it; they may come later. */
  spoken?: readonly string[];
};

/** `earlier`: standing entries that the writer may know of; `stepKeys`: every step that applies at this house. */
export type EntryContext = { earlier: readonly KnownEntry[]; stepKeys: ReadonlySet<string> };

type Place = { step: Step; item: RecordItem | null };
type Judged = Outcome<{ match: EntryMatch }>;

const judged = (match: EntryMatch, warnings: Warning[] = []): Judged => accept({ match }, warnings);

const inRange = (value: number, range: { expectedFrom?: number; expectedTo?: number }): EntryMatch => {
  if (range.expectedFrom === undefined && range.expectedTo === undefined) return 'not_asked';
  return value >= (range.expectedFrom ?? -Infinity) && value <= (range.expectedTo ?? Infinity) ? 'as_expected' : 'outside';
};

/** Nine decimals are more than any instrument shows: 14.2 - 0.2 is 14 and not 13.999999999999998. */
const cleaned = (value: number): number => Number(value.toFixed(9));

/** Second minus first, for example return air minus supply air. */
export const differenceOf = (evidence: { first: number; second: number }): number => cleaned(evidence.second - evidence.first);

const countMatch = (wanted: string, count: number, place: Place, earlier: readonly KnownEntry[]): Judged => {
  const before = earlier.findLast(
    (entry) => entry.stepKey === wanted && entry.itemId === (place.item?.id ?? null) && entry.evidence?.kind === 'count',
  );
  if (before?.evidence?.kind !== 'count')
    return judged('not_asked', [{ code: 'no-earlier-count', text: 'There is no earlier count to compare with.' }]);
  if (before.evidence.count === count) return judged('as_expected');
  return judged('differs', [{ code: 'count-differs', text: `Counted ${count}, before it was ${before.evidence.count}.` }]);
};

const wrongUnit = (evidence: { unit: string }, asked: { unit: string }) =>
  evidence.unit === asked.unit ? null : refuse('entry-unit', { unit: asked.unit }, 'evidence.unit');

const judge = (asked: Evidence, given: EntryEvidence, place: Place, earlier: readonly KnownEntry[]): Judged => {
  if (asked.kind === 'reading' && given.kind === 'reading') return wrongUnit(given, asked) ?? judged(inRange(given.value, asked));
  if (asked.kind === 'difference' && given.kind === 'difference')
    return wrongUnit(given, asked) ?? judged(inRange(differenceOf(given), asked));
  if (asked.kind === 'count' && given.kind === 'count')
    return asked.mustMatch === undefined ? judged('not_asked') : countMatch(asked.mustMatch, given.count, place, earlier);
  if (asked.kind === 'choice' && given.kind === 'choice') {
    return asked.options.some(({ key }) => key === given.option)
      ? judged('not_asked')
      : refuse('entry-not-an-option', {}, 'evidence.option');
  }
  return asked.kind === given.kind ? judged('not_asked') : refuse('entry-other-evidence', { wanted: asked.kind }, 'evidence');
};

const isBlank = (text: string | null): boolean => text === null || text.trim() === '';
/** Neither written nor spoken. A reason of somebody's own is written, since the client's report says it. */
const saysNothing = ({ note, spoken }: GivenEntry): boolean => isBlank(note) && !spoken?.length;

type PhotoEvidence = Extract<EntryEvidence, { kind: 'photo' }>;

/** A photo, or why there is none. */
const checkPhoto = ({ without }: PhotoEvidence, { photos, note }: GivenEntry): Refusal | null => {
  if (without === undefined) return photos?.length ? null : refuse('entry-photo-missing', {}, 'photos');
  if (photos?.length) return refuse('entry-photo-and-reason', {}, 'evidence.without');
  return without === 'other' && isBlank(note) ? refuse('entry-note-missing', {}, 'note') : null;
};

const checkDone = (place: Place, entry: GivenEntry, earlier: readonly KnownEntry[]): Judged => {
  if (entry.evidence === null) return refuse('entry-other-evidence', { wanted: place.step.evidence.kind }, 'evidence');
  const asksPhoto = place.step.evidence.kind === 'photo' && entry.evidence.kind === 'photo';
  const photo = asksPhoto ? checkPhoto(entry.evidence as PhotoEvidence, entry) : null;
  if (photo) return photo;
  if (place.step.evidence.kind === 'note' && saysNothing(entry)) return refuse('entry-note-missing', {}, 'note');
  return judge(place.step.evidence, entry.evidence, place, earlier);
};

const isLimited = (outcome: StepOutcome): boolean => outcome === 'could_not' || outcome === 'from_opening';

const checkNotDone = (entry: GivenEntry): Judged => {
  if (entry.evidence !== null) return refuse('entry-evidence-of-nothing', {}, 'evidence');
  if (!isLimited(entry.outcome)) return entry.measures ? refuse('entry-measures-of-what', {}, 'measures') : judged('not_asked');
  if (entry.reason === null) return refuse('entry-reason-missing', {}, 'reason');
  return entry.reason === 'other' && isBlank(entry.note) ? refuse('entry-note-missing', {}, 'note') : judged('not_asked');
};

const unexplained = (match: EntryMatch, entry: GivenEntry): Warning[] =>
  match === 'outside' && saysNothing(entry)
    ? [{ code: 'outside-without-note', text: 'Outside what is usual, and without a note that says why.' }]
    : [];

const outOfOrder = (place: Place, context: EntryContext): Warning[] => {
  const recorded = new Set(context.earlier.map(({ stepKey }) => stepKey));
  const skipped = place.step.after.filter((key) => context.stepKeys.has(key) && !recorded.has(key));
  return skipped.length === 0
    ? []
    : [
        {
          code: 'before-its-order',
          text: `Recorded before ${skipped.length === 1 ? 'a step' : 'steps'} that should come first: ${skipped.join(', ')}.`,
        },
      ];
};

/**
 * Whether an entry can be taken in, and how it compares with what the step expects. What is outside a range, differs from
 * an earlier count or comes out of order is accepted and said; only evidence that cannot belong to the step is refused.
 */
export function checkEntry(place: Place, entry: GivenEntry, context: EntryContext): Judged {
  const result = entry.outcome === 'done' ? checkDone(place, entry, context.earlier) : checkNotDone(entry);
  return result.ok
    ? accept(result.value, [...result.warnings, ...unexplained(result.value.match, entry), ...outOfOrder(place, context)])
    : result;
}
