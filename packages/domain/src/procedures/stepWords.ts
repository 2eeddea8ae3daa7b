// The parts of a step in plain English, for documents, comparisons and phones.
import type { Applicability } from '../shared/applicability.ts';
import { inWords } from '../shared/english.ts';
import { ITEM_KINDS } from '../shared/facts.ts';
import { STEP_PLACES } from '../shared/places.ts';
import { listed } from '../shared/phrases.ts';
import type { Evidence, Step, StepReference } from './step.ts';

/** Names for keys that a step points at; a key without a name is shown as it is. */
export type StepNames = { steps: Readonly<Record<string, string>>; services: Readonly<Record<string, string>> };
export const NO_NAMES: StepNames = { steps: {}, services: {} };

const quoted = (keys: readonly string[], names: StepNames): string =>
  listed(
    keys.map((key) => `"${names.steps[key] ?? key}"`),
    'and',
  );

/** '14 to 22 F', 'at least 14 F', 'at most 22 F', or '' without a range. */
export const rangeInWords = ({ unit, expectedFrom, expectedTo }: { unit: string; expectedFrom?: number; expectedTo?: number }): string => {
  if (expectedFrom !== undefined && expectedTo !== undefined) return `${expectedFrom} to ${expectedTo} ${unit}`;
  if (expectedFrom !== undefined) return `at least ${expectedFrom} ${unit}`;
  return expectedTo === undefined ? '' : `at most ${expectedTo} ${unit}`;
};

const expected = (evidence: { unit: string; expectedFrom?: number; expectedTo?: number; hint?: string }): string => {
  const range = rangeInWords(evidence);
  return `${range === '' ? '' : `, expected ${range}`}${evidence.hint === undefined ? '' : ` (${evidence.hint})`}`;
};

/** How the step is recorded: 'a reading in F, expected 14 to 22 F'. */
export const evidenceInWords = (evidence: Evidence, names: StepNames = NO_NAMES): string => {
  switch (evidence.kind) {
    case 'confirm':
      return 'a confirmation that it was done';
    case 'reading':
      return `a reading in ${evidence.unit}${expected(evidence)}`;
    case 'difference':
      return `two readings in ${evidence.unit}, ${evidence.secondLabel} minus ${evidence.firstLabel}${expected(evidence)}`;
    case 'count':
      return `a count of ${evidence.of}${evidence.mustMatch === undefined ? '' : `, which must equal the count of ${quoted([evidence.mustMatch], names)}`}`;
    case 'choice':
      return `a choice: ${listed(
        evidence.options.map(({ label }) => `"${label}"`),
        'or',
      )}`;
    case 'note':
      return `a note: ${evidence.prompt}`;
    case 'photo':
      return `a photo of ${evidence.of}`;
  }
};

/** 'at every property', or 'when built 1978 or earlier'. */
export const appliesInWords = (rule: Applicability, names: StepNames = NO_NAMES): string => {
  const words = inWords(rule, names.services);
  return /^at (every|no) property$/.test(words) ? words : `when ${words}`;
};

export const perInWords = (per: Step['per']): string => (per === 'property' ? 'once at the property' : `for each ${ITEM_KINDS[per]}`);

/** 'at the attic', 'elsewhere', or '' when the step does not say it. */
export const placeInWords = (place: Step['place']): string =>
  place === undefined ? '' : place === 'elsewhere' ? place : `at the ${STEP_PLACES[place]}`;

const WHO: Record<Step['who'], string> = {
  either: 'either of the pair',
  first: 'the first of the pair',
  partner_check: "both of the pair, each without seeing the other's answer",
};
export const whoInWords = (step: Pick<Step, 'who' | 'onePersonOnly'>): string =>
  `${WHO[step.who]}${step.onePersonOnly === true ? '; only one person can enter' : ''}`;

export const basisInWords = (basis: Step['basis']): string =>
  basis.kind === 'duty' ? `duty by ${listed(basis.rows, 'and')}` : 'our own extra';

export const styleInWords = (style: Step['style']): string => (style === 'read_then_do' ? 'read, then do' : 'do, then confirm');

/** What must come before and what may not come between; '' when the order is free. */
export const orderInWords = (step: Pick<Step, 'after' | 'sequence'>, names: StepNames = NO_NAMES): string =>
  [
    ...(step.after.length === 0 ? [] : [`after ${quoted(step.after, names)}`]),
    ...(step.sequence === undefined ? [] : [`in one go with the sequence "${step.sequence}"`]),
  ].join(', ');

export const referenceInWords = ({ title, section, edition, status }: StepReference): string =>
  [title, section, edition === 'none' ? '' : edition, status === 'found' ? '' : status].filter(Boolean).join(', ');
