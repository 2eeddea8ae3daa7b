// A firm's own steps out of a table: every problem by its line, and the draft as it would be; nothing is changed here.
import { keyFor } from '../shared/keyFor.ts';
import type { Refusal } from '../shared/outcome.ts';
import { draftProblems } from './draftProblems.ts';
import { editSteps, type KnownKey } from './editSteps.ts';
import type { Question } from './questions.ts';
import { sameValue } from './sameValue.ts';
import type { Step } from './step.ts';
import { procedureRefusals } from './refusals.ts';
import { readStep } from './stored.ts';
import { COLUMN_KEYS, COLUMNS, rawStep, type Cells, type Column } from './table.ts';

export type TableRow = { line: number; cells: readonly string[] };
/** `stops`: nothing is taken in before it is put right; else it only stands in the way of approval. */
export type LineProblem = { line: number; column: string | null; text: string; stops: boolean };
export type TakenStep = { line: number; step: Step; does: 'adds' | 'changes' | 'same' };
export type Import = { taken: TakenStep[]; steps: Step[]; problems: LineProblem[] };

/** As many steps as a draft holds. */
const MOST_STEPS = 200;
const NEEDED: readonly Column[] = ['title', 'instruction', 'why'];

const stop = (line: number, column: Column | null, text: string): LineProblem => ({
  line,
  column: column === null ? null : COLUMNS[column],
  text,
  stops: true,
});

type Head = { columns: (Column | null)[]; problems: LineProblem[] };

const nameless = (cell: string): string => cell.trim().toLowerCase();

/** Which column each cell of the first row names; heads are known whatever their case. */
function readHead({ line, cells }: TableRow): Head {
  const columns = cells.map((cell) => COLUMN_KEYS.find((key) => nameless(COLUMNS[key]) === nameless(cell)) ?? null);
  const problems = [
    ...(cells.length === 1 && /[;\t]/.test(cells[0]!)
      ? [stop(line, null, 'Columns are parted by commas, not by semicolons or tabs.')]
      : []),
    ...columns.flatMap((column, at) =>
      column === null ? [stop(line, null, `There is no column "${cells[at]!.trim().slice(0, 40)}".`)] : [],
    ),
    ...columns.flatMap((column, at) =>
      column !== null && columns.indexOf(column) < at ? [stop(line, column, 'This column stands twice.')] : [],
    ),
    ...NEEDED.filter((column) => !columns.includes(column)).map((column) => stop(line, column, 'This column is missing.')),
  ];
  return { columns, problems };
}

/** The column in which a member of a step stands. */
const columnAt = (path: readonly PropertyKey[]): Column | null => {
  const [first, second] = path.map(String);
  if (first === 'evidence')
    return second === 'kind' || second === undefined ? 'record' : second in COLUMNS ? (second as Column) : 'recordOf';
  if (first === 'basis') return 'rows';
  return first !== undefined && first in COLUMNS ? (first as Column) : null;
};

type Read = { line: number; step: Step | null; problems: LineProblem[] };

function readRow({ line, cells }: TableRow, columns: readonly (Column | null)[], taken: readonly string[]): Read {
  if (cells.length > columns.length || cells.length < columns.length)
    return { line, step: null, problems: [stop(line, null, `There are ${cells.length} cells, but ${columns.length} columns.`)] };
  const named: Cells = {};
  columns.forEach((column, at) => {
    if (column !== null) named[column] = cells[at]!;
  });
  const read = readStep(rawStep(named, keyFor(named.title ?? '', taken)));
  return read.ok
    ? { line, step: read.step, problems: [] }
    : { line, step: null, problems: read.issues.map(({ path, message }) => stop(line, columnAt(path), message)) };
}

const merged = (draft: readonly Step[], taken: readonly Step[]): Step[] => {
  const fresh = new Map(taken.map((step) => [step.key, step]));
  const kept = draft.map((step) => fresh.get(step.key) ?? step);
  return [...kept, ...taken.filter(({ key }) => !draft.some((step) => step.key === key))];
};

/** A refusal of the life of keys, as a sentence. */
const said = ({ code, about }: Refusal): string =>
  (procedureRefusals as Record<string, { sentence: string } | undefined>)[code]?.sentence.replace(/\{(\w+)\}/g, (_, name: string) =>
    String(about?.[name] ?? ''),
  ) ?? code;

export type ImportFacts = {
  procedureId: string;
  draft: readonly Step[];
  base: readonly Step[];
  elsewhere: readonly Step[];
  questions: readonly Question[];
  /** What is on file about the keys that the table uses or derives from. */
  known: readonly KnownKey[];
};

/** What is on file with the keys that other rows of the same table or the draft use for the first time. */
const knownBeside = (facts: ImportFacts, all: readonly Step[], step: Step): KnownKey[] => [
  ...facts.known,
  ...all
    .filter(({ key }) => key !== step.key && !facts.known.some((known) => known.key === key))
    .map(({ key, derivedFrom }) => ({ key, procedureId: facts.procedureId, derivedFrom: derivedFrom ?? null, last: null })),
];

const doesTo = (draft: readonly Step[], step: Step): TakenStep['does'] => {
  const old = draft.find(({ key }) => key === step.key);
  return old === undefined ? 'adds' : sameValue(old, step) ? 'same' : 'changes';
};

/** Reads the rows under the heads. A step without a key gets one of its title. */
export function readTable(
  rows: readonly TableRow[],
  draft: readonly Step[],
): { read: { line: number; step: Step }[]; problems: LineProblem[] } {
  const [head, ...body] = rows;
  if (!head || body.length === 0) return { read: [], problems: [stop(head?.line ?? 1, null, 'The table has no rows under its heads.')] };
  const { columns, problems } = readHead(head);
  if (problems.length > 0) return { read: [], problems };
  if (body.length > MOST_STEPS)
    return { read: [], problems: [stop(body[MOST_STEPS]!.line, null, `A draft holds at most ${MOST_STEPS} steps.`)] };
  const taken = draft.map(({ key }) => key);
  const read = body.map((row) => {
    const one = readRow(row, columns, taken);
    if (one.step) taken.push(one.step.key);
    return one;
  });
  return { read: read.flatMap(({ line, step }) => (step ? [{ line, step }] : [])), problems: read.flatMap((one) => one.problems) };
}

/** Looks at the steps that were read together with the draft, the rest of the book and the life of their keys. */
export function judgeImport(facts: ImportFacts, read: readonly { line: number; step: Step }[]): Import {
  const steps = merged(
    facts.draft,
    read.map(({ step }) => step),
  );
  const lineOf = new Map(read.map(({ line, step }) => [step.key, line]));
  const problems = read.flatMap(({ line, step }, at): LineProblem[] => {
    const first = read.findIndex((one) => one.step.key === step.key);
    if (first < at) return [stop(line, 'key', `The key "${step.key}" stands on line ${read[first]!.line} too.`)];
    const edited = editSteps({ procedureId: facts.procedureId, known: knownBeside(facts, steps, step) }, [step]);
    return edited.ok ? [] : [{ line, column: null, text: said(edited), stops: true }];
  });
  const before = draftProblems({ base: facts.base, steps, questions: facts.questions, retires: false, elsewhere: facts.elsewhere });
  const later = before.flatMap((text): LineProblem[] => {
    const line = lineOf.get(/^Step "([^"]+)"/.exec(text)?.[1] ?? '');
    return line === undefined ? [] : [{ line, column: null, text, stops: false }];
  });
  const tooMany = steps.length > MOST_STEPS ? [stop(read.at(-1)!.line, null, `A draft holds at most ${MOST_STEPS} steps.`)] : [];
  return {
    taken: read.map(({ line, step }) => ({ line, step, does: doesTo(facts.draft, step) })),
    steps,
    problems: [...problems, ...tooMany, ...later],
  };
}
