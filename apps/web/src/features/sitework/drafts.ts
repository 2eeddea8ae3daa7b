// What is being typed at a step, and the entry that it becomes.
import type { MemberRecord, NewEntry, SiteStep } from '@backsight/contract/sitework';
import type { Measures } from '@backsight/domain/sitework/accessLimits';
import { differenceOf } from '@backsight/domain/sitework/entry';
import { REASONS, WITHOUT_PHOTO, type CorrectionReason, type CouldNotReason, type WithoutPhoto } from '@backsight/domain/sitework/value';
import { newId } from '../../api/ids.ts';
import type { UncountedEntry } from '../../api/phone/outbox.ts';

export type Draft = {
  outcome: 'done' | 'none_at_property' | 'could_not' | 'from_opening';
  value: string;
  first: string;
  second: string;
  option: string;
  note: string;
  reason: CouldNotReason | null;
  /** Ids of photos taken for it, and why there is none where one is asked for. */
  photos: readonly string[];
  /** Ids of spoken notes recorded for it. */
  spoken: readonly string[];
  without: WithoutPhoto | null;
  /** Inches as they are typed, where access is too small. */
  headroom: string;
  width: string;
  height: string;
  corrects: { entryId: string; why: CorrectionReason } | null;
};

const NOT_MEASURED = { headroom: '', width: '', height: '' };
export const BLANK: Draft = {
  outcome: 'done',
  value: '',
  first: '',
  second: '',
  option: '',
  note: '',
  reason: null,
  photos: [],
  spoken: [],
  without: null,
  ...NOT_MEASURED,
  corrects: null,
};

const number = (text: string): number | null => {
  const value = Number(text.replace(',', '.').trim());
  return text.trim() === '' || !Number.isFinite(value) || Math.abs(value) > 1_000_000 ? null : value;
};

/** Neither written nor spoken. */
const saysNothing = ({ note, spoken }: Draft): boolean => note.trim() === '' && spoken.length === 0;

/** The evidence typed so far, or null while something is missing. */
export function evidenceOf(step: SiteStep, draft: Draft): NewEntry['evidence'] {
  const asked = step.evidence;
  const [value, first, second] = [number(draft.value), number(draft.first), number(draft.second)];
  switch (asked.kind) {
    case 'confirm':
      return { kind: 'confirm' };
    case 'reading':
      return value === null ? null : { kind: 'reading', value, unit: asked.unit };
    case 'difference':
      return first === null || second === null ? null : { kind: 'difference', first, second, unit: asked.unit };
    case 'count':
      return value === null || !Number.isInteger(value) || value < 0 || value > 10_000 ? null : { kind: 'count', count: value };
    case 'choice':
      return draft.option === '' ? null : { kind: 'choice', option: draft.option };
    case 'note':
      return saysNothing(draft) ? null : { kind: 'note' };
    case 'photo':
      if (draft.photos.length > 0) return { kind: 'photo' };
      return draft.without === null ? null : { kind: 'photo', without: draft.without };
  }
}

/** How what is typed compares with the usual range or with the count before, while it can still be looked at again; null when there is nothing to say. */
export function hintOf(record: MemberRecord, step: SiteStep, draft: Draft): string | null {
  const asked = step.evidence;
  const given = evidenceOf(step, draft);
  if ((asked.kind === 'reading' || asked.kind === 'difference') && (given?.kind === 'reading' || given?.kind === 'difference')) {
    const value = given.kind === 'reading' ? given.value : differenceOf(given);
    const said = given.kind === 'difference' ? `Difference ${value} ${asked.unit}. ` : '';
    const outside = value < (asked.expectedFrom ?? -Infinity) || value > (asked.expectedTo ?? Infinity);
    return outside ? `${said}Outside what is usual. It is recorded as read, with a note that says why.` : said.trim() || null;
  }
  if (asked.kind !== 'count' || asked.mustMatch === undefined || given?.kind !== 'count') return null;
  const before = record.entries.findLast((e) => e.stepKey === asked.mustMatch && e.itemId === step.itemId && e.evidence?.kind === 'count');
  return before?.evidence?.kind === 'count' && before.evidence.count !== given.count
    ? `Before it was ${before.evidence.count}. Look again; it is recorded as counted.`
    : null;
}

const OUTSIDE = 'Outside what is usual: say in a note what you make of it.';

const isOutside = ({ evidence: asked }: SiteStep, given: NonNullable<NewEntry['evidence']>): boolean => {
  if (asked.kind !== 'reading' && asked.kind !== 'difference') return false;
  const value = given.kind === 'reading' ? given.value : given.kind === 'difference' ? differenceOf(given) : null;
  return value !== null && (value < (asked.expectedFrom ?? -Infinity) || value > (asked.expectedTo ?? Infinity));
};

/** Whether what is typed lies outside what is usual, which asks for a note. */
export function wantsNote(step: SiteStep, draft: Draft): boolean {
  const given = draft.outcome === 'done' ? evidenceOf(step, draft) : null;
  return given !== null && isOutside(step, given);
}

/** Could not be inspected, or looked at from the opening only: both say why. */
export const isLimited = ({ outcome }: Pick<Draft, 'outcome'>): boolean => outcome === 'could_not' || outcome === 'from_opening';

/** What was measured of a way in; empty when nothing was. */
export const measuresOf = (draft: Draft): Measures =>
  Object.fromEntries(
    (
      [
        ['headroomIn', draft.headroom],
        ['widthIn', draft.width],
        ['heightIn', draft.height],
      ] as const
    ).flatMap(([key, typed]) => {
      const inches = number(typed);
      return inches === null || inches < 0 || inches > 600 ? [] : [[key, inches]];
    }),
  );

const isMeasured = (draft: Draft): boolean => isLimited(draft) && Object.keys(measuresOf(draft)).length > 0;

/** What still misses before the entry can be recorded, in words; null when nothing does. */
export function missingIn(step: SiteStep, draft: Draft): string | null {
  if (draft.outcome === 'none_at_property') return null;
  if (isLimited(draft)) {
    if (draft.reason === null) return 'Choose why it could not be inspected.';
    return draft.reason === 'other' && draft.note.trim() === '' ? `${REASONS.other}: please write it.` : null;
  }
  const given = evidenceOf(step, draft);
  if (given?.kind === 'photo' && given.without === 'other' && draft.note.trim() === '') return `${WITHOUT_PHOTO.other}: please write it.`;
  if (given !== null) return wantsNote(step, draft) && saysNothing(draft) ? OUTSIDE : null;
  return {
    confirm: null,
    reading: 'Enter the reading.',
    difference: 'Enter both readings.',
    count: 'Enter a whole number.',
    choice: 'Choose an answer.',
    note: 'Write a note, or record one.',
    photo: 'Take a photo, or say why there is none.',
  }[step.evidence.kind];
}

/** The entry of a draft in which nothing misses; timed by this phone, and counted when it is kept. */
export const entryOf = (step: SiteStep, draft: Draft, observedBy: string): UncountedEntry => ({
  id: newId(),
  packageId: step.packageId,
  stepKey: step.stepKey,
  itemId: step.itemId,
  outcome: draft.outcome,
  evidence: draft.outcome === 'done' ? evidenceOf(step, draft) : null,
  reason: isLimited(draft) ? draft.reason : null,
  ...(isMeasured(draft) ? { measures: measuresOf(draft) } : {}),
  ...(draft.photos.length > 0 ? { photos: [...draft.photos] } : {}),
  ...(draft.spoken.length > 0 ? { spoken: [...draft.spoken] } : {}),
  note: draft.note.trim() === '' ? null : draft.note.trim(),
  observedBy,
  observedAt: new Date().toISOString(),
  observedApprox: false,
  corrects: draft.corrects,
});
