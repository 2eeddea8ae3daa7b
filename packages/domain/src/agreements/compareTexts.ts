// Compares two agreement texts clause by clause, with marks at the words.
import { inWords } from '../shared/english.ts';
import { formatUsd } from '../shared/money.ts';
import { movedKeys } from '../shared/moved.ts';
import { wordMarks, type WordMark } from '../shared/wordMarks.ts';
import { CLAUSE_CLIENTS, type Cap, type Clause, type TextContent, type TextLimits } from './text.ts';

/** One clause that differs. `before` is null for an added one, `after` for a removed one; `marks` of the words, empty when they are the same. */
export type ClauseDifference = {
  key: string;
  kind: 'added' | 'removed' | 'changed';
  sentences: string[];
  before: Clause | null;
  after: Clause | null;
  marks: WordMark[];
};
export type TextComparison = { sentences: string[]; consentMarks: WordMark[]; clauses: ClauseDifference[] };

export const capInWords = (cap: Cap): string =>
  cap.kind === 'none'
    ? 'no limit of liability'
    : cap.kind === 'amount'
      ? `liability up to ${formatUsd(cap.cents)}`
      : `liability up to ${cap.tenths / 10} times the fee`;
export const claimLimitInWords = (months: number | null): string =>
  months === null ? 'no time to claim of its own' : `claims within ${months} months`;
export const limitsInWords = ({ cap, claimMonths }: TextLimits): string => `${capInWords(cap)}; ${claimLimitInWords(claimMonths)}`;

/** When a clause applies, as a phrase. */
export const whenInWords = ({ applies, client }: Clause, services: Readonly<Record<string, string>>): string =>
  client === 'anybody' ? inWords(applies, services) : `${inWords(applies, services)}, for ${CLAUSE_CLIENTS[client]}`;

type Names = Readonly<Record<string, string>>;

function changed(was: Clause, now: Clause, moved: boolean, names: Names): ClauseDifference | null {
  const [old, fresh] = [whenInWords(was, names), whenInWords(now, names)];
  const sentences = [
    ...(moved ? ['It has another place.'] : []),
    ...(was.title === now.title ? [] : [`Its title was "${was.title}" and is "${now.title}".`]),
    ...(old === fresh ? [] : [`It applied ${old}; it applies ${fresh}.`]),
    ...(was.body === now.body ? [] : ['Its words changed.']),
  ];
  const marks = was.body === now.body ? [] : wordMarks(was.body, now.body);
  return sentences.length === 0 ? null : { key: now.key, kind: 'changed', sentences, before: was, after: now, marks };
}

/** What is different in `after`; nothing at all when every list is empty. */
export function compareTexts(before: TextContent, after: TextContent, names: Names): TextComparison {
  const old = new Map(before.clauses.map((clause) => [clause.key, clause]));
  const kept = new Set(after.clauses.map(({ key }) => key));
  const moved = movedKeys(before.clauses, after.clauses);
  const one = (clause: Clause): ClauseDifference | null => {
    const was = old.get(clause.key);
    if (was) return changed(was, clause, moved.has(clause.key), names);
    return {
      key: clause.key,
      kind: 'added',
      sentences: [`Added. It applies ${whenInWords(clause, names)}.`],
      before: null,
      after: clause,
      marks: [],
    };
  };
  const removed = before.clauses
    .filter(({ key }) => !kept.has(key))
    .map((clause): ClauseDifference => ({
      key: clause.key,
      kind: 'removed',
      sentences: ['Removed.'],
      before: clause,
      after: null,
      marks: [],
    }));
  const [limitsWere, limitsAre] = [limitsInWords(before.limits), limitsInWords(after.limits)];
  return {
    sentences: [
      ...(before.title === after.title ? [] : [`The title was "${before.title}" and is "${after.title}".`]),
      ...(limitsWere === limitsAre ? [] : [`Limits were: ${limitsWere}. They are: ${limitsAre}.`]),
      ...(before.consentText === after.consentText ? [] : ['The consent to electronic records changed.']),
    ],
    consentMarks: before.consentText === after.consentText ? [] : wordMarks(before.consentText, after.consentText),
    clauses: [...after.clauses.map(one).filter((difference) => difference !== null), ...removed],
  };
}

export const changesSomething = ({ sentences, clauses }: TextComparison): boolean => sentences.length + clauses.length > 0;
