// What is being typed at a step, and the entry that it becomes.
import type { MemberRecord, NewEntry, SiteStep } from '@backsight/contract/sitework';
import { differenceOf } from '@backsight/domain/sitework/entry';
import { REASONS, type CorrectionReason, type CouldNotReason } from '@backsight/domain/sitework/value';
import { newId } from '../../api/ids.ts';
import type { UncountedEntry } from '../../api/phone/outbox.ts';

export type Draft = {
  outcome: 'done' | 'none_at_property' | 'could_not';
  value: string;
  first: string;
  second: string;
  option: string;
  note: string;
  reason: CouldNotReason | null;
  corrects: { entryId: string; why: CorrectionReason } | null;
};

export const BLANK: Draft = { outcome: 'done', value: '', first: '', second: '', option: '', note: '', reason: null, corrects: null };

const number = (text: string): number | null => {
  const value = Number(text.replace(',', '.').trim());
  return text.trim() === '' || !Number.isFinite(value) || Math.abs(value) > 1_000_000 ? null : value;
};

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
      return draft.note.trim() === '' ? null : { kind: 'note' };
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
    return outside ? `${said}Outside what is usual. It is recorded as read.` : said.trim() || null;
  }
  if (asked.kind !== 'count' || asked.mustMatch === undefined || given?.kind !== 'count') return null;
  const before = record.entries.findLast((e) => e.stepKey === asked.mustMatch && e.itemId === step.itemId && e.evidence?.kind === 'count');
  return before?.evidence?.kind === 'count' && before.evidence.count !== given.count
    ? `Before it was ${before.evidence.count}. Look again; it is recorded as counted.`
    : null;
}

/** What still misses before the entry can be recorded, in words; null when nothing does. */
export function missingIn(step: SiteStep, draft: Draft): string | null {
  if (draft.outcome === 'none_at_property') return null;
  if (draft.outcome === 'could_not') {
    if (draft.reason === null) return 'Choose why it could not be inspected.';
    return draft.reason === 'other' && draft.note.trim() === '' ? `${REASONS.other}: please write it.` : null;
  }
  if (evidenceOf(step, draft) !== null) return null;
  return {
    confirm: null,
    reading: 'Enter the reading.',
    difference: 'Enter both readings.',
    count: 'Enter a whole number.',
    choice: 'Choose an answer.',
    note: 'Write a note.',
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
  reason: draft.outcome === 'could_not' ? draft.reason : null,
  note: draft.note.trim() === '' ? null : draft.note.trim(),
  observedBy,
  observedAt: new Date().toISOString(),
  observedApprox: false,
  corrects: draft.corrects,
});
