// Compares one step before and after: its wording with word-level marks, everything else in sentences.
import { listed } from '../shared/phrases.ts';
import { sameValue } from './sameValue.ts';
import type { Evidence, Step } from './step.ts';
import {
  appliesInWords,
  basisInWords,
  evidenceInWords,
  orderInWords,
  perInWords,
  placeInWords,
  rangeInWords,
  referenceInWords,
  styleInWords,
  whoInWords,
  type StepNames,
} from './stepWords.ts';
import { wordMarks, type WordMark } from '../shared/wordMarks.ts';

export type WordedField = 'title' | 'instruction' | 'why' | 'caution';

/** A text of the step that reads otherwise now. */
export type Reworded = { field: WordedField; sentence: string; marks: WordMark[] };

const LABELS: Record<WordedField, string> = { title: 'title', instruction: 'instruction', why: 'reason', caution: 'caution' };

const rewording = (field: WordedField, before: string | undefined, after: string | undefined): Reworded[] => {
  if (before === after) return [];
  const verb = before === undefined ? 'is added' : after === undefined ? 'is removed' : 'is reworded';
  return [{ field, sentence: `The ${LABELS[field]} ${verb}.`, marks: wordMarks(before ?? '', after ?? '') }];
};

/** The texts that differ, caution first, because it matters most. */
export const rewordingsOf = (before: Step, after: Step): Reworded[] =>
  (['caution', 'title', 'instruction', 'why'] as const).flatMap((field) => rewording(field, before[field], after[field]));

/** "What: now; before, was." When both read alike the sentence says that only the notation differs. */
const said = (what: string, before: string, after: string): string =>
  before === after ? `${what}: ${after}; written otherwise, but it means the same.` : `${what}: ${after}; before, ${before}.`;

const withoutRange = (evidence: Evidence): unknown =>
  evidence.kind === 'reading' || evidence.kind === 'difference'
    ? { ...evidence, expectedFrom: undefined, expectedTo: undefined }
    : evidence;

const evidenceChange = (before: Evidence, after: Evidence, names: StepNames): string => {
  const onlyRange = sameValue(withoutRange(before), withoutRange(after));
  if (!onlyRange || !('unit' in before) || !('unit' in after))
    return said('It is recorded as', evidenceInWords(before, names), evidenceInWords(after, names));
  return said('Expected range', rangeInWords(before) || 'none', rangeInWords(after) || 'none');
};

const list = (words: readonly string[]): string => listed(words, 'and') || 'none';

/** Of a list only what came and what went, because the rest can be long. */
const cameAndWent = (what: string, before: readonly string[], after: readonly string[]): string => {
  const [came, went] = [after.filter((one) => !before.includes(one)), before.filter((one) => !after.includes(one))];
  const parts = [
    ...(came.length > 0 ? [`added ${listed(came, 'and')}`] : []),
    ...(went.length > 0 ? [`removed ${listed(went, 'and')}`] : []),
  ];
  return parts.length === 0 ? `${what}: the same in another order.` : `${what}: ${parts.join('; ')}.`;
};

type Field = { fields: readonly (keyof Step)[]; say: (before: Step, after: Step, names: StepNames) => string };

const BY_SYSTEM = 'not said, so as its system has it';

/** Every part of a step but its key and its wording, each with the sentence that names its change. */
const FIELDS: readonly Field[] = [
  { fields: ['evidence'], say: (b, a, names) => evidenceChange(b.evidence, a.evidence, names) },
  { fields: ['applies'], say: (b, a, names) => said('It applies', appliesInWords(b.applies, names), appliesInWords(a.applies, names)) },
  { fields: ['per'], say: (b, a) => said('It is done', perInWords(b.per), perInWords(a.per)) },
  {
    fields: ['place'],
    say: (b, a) => said('Where it is done', placeInWords(b.place) || BY_SYSTEM, placeInWords(a.place) || BY_SYSTEM),
  },
  { fields: ['who', 'onePersonOnly'], say: (b, a) => said('It is recorded by', whoInWords(b), whoInWords(a)) },
  {
    fields: ['after', 'sequence'],
    say: (b, a, names) => said('Order', orderInWords(b, names) || 'free', orderInWords(a, names) || 'free'),
  },
  { fields: ['style'], say: (b, a) => said('Way of working', styleInWords(b.style), styleInWords(a.style)) },
  { fields: ['minutes'], say: (b, a) => said('Planned minutes', String(b.minutes), String(a.minutes)) },
  { fields: ['kit'], say: (b, a) => said('Kit', list(b.kit), list(a.kit)) },
  { fields: ['qualification'], say: (b, a) => said('Qualification needed', b.qualification ?? 'none', a.qualification ?? 'none') },
  { fields: ['basis'], say: (b, a) => said('It is', basisInWords(b.basis), basisInWords(a.basis)) },
  {
    fields: ['references'],
    say: (b, a) => cameAndWent('References', b.references.map(referenceInWords), a.references.map(referenceInWords)),
  },
  {
    fields: ['alsoMeets'],
    say: (b, a) => cameAndWent('Rows of other states that it meets', b.alsoMeets ?? [], a.alsoMeets ?? []),
  },
  { fields: ['derivedFrom'], say: (b, a) => said('Derived from', b.derivedFrom ?? 'none', a.derivedFrom ?? 'none') },
];

/** One sentence for each part that differs, apart from wording. */
export const changesOf = (before: Step, after: Step, names: StepNames): string[] =>
  FIELDS.filter(({ fields }) => fields.some((field) => !sameValue(before[field], after[field]))).map(({ say }) =>
    say(before, after, names),
  );
