// Steps as a table: the columns, a step as cells, cells as a step. One row is one step; lists stand in one cell.
import type { Applicability, Comparison } from '../shared/applicability.ts';
import { FACTS, type FactKey } from '../shared/facts.ts';
import { STEP_PLACES, type StepPlace } from '../shared/places.ts';
import type { Evidence, Step, StepReference } from './step.ts';

/** Column heads by what they hold; `wordsOfRule` is written for people and not read back. */
export const COLUMNS = {
  key: 'Key',
  derivedFrom: 'Derived from',
  title: 'Title',
  instruction: 'Instruction',
  why: 'Why',
  caution: 'Caution',
  record: 'Record',
  recordOf: 'Record of',
  expectedFrom: 'Expected from',
  expectedTo: 'Expected to',
  firstLabel: 'First reading',
  secondLabel: 'Second reading',
  hint: 'Hint',
  mustMatch: 'Must match',
  applies: 'Applies when',
  wordsOfRule: 'Applies when, in words',
  per: 'Done for',
  place: 'Where',
  rows: 'Published rows',
  who: 'Recorded by',
  onePersonOnly: 'One person only',
  style: 'Way of working',
  minutes: 'Minutes',
  kit: 'Kit',
  qualification: 'Qualification',
  after: 'After',
  sequence: 'Sequence',
  references: 'References',
  alsoMeets: 'Also meets',
} as const;
export type Column = keyof typeof COLUMNS;
export const COLUMN_KEYS = Object.keys(COLUMNS) as Column[];
export type Cells = Partial<Record<Column, string>>;

const RECORDS: Record<string, Evidence['kind']> = {
  confirmation: 'confirm',
  reading: 'reading',
  difference: 'difference',
  count: 'count',
  choice: 'choice',
  note: 'note',
  photo: 'photo',
};
const recordName = (kind: Evidence['kind']): string => Object.keys(RECORDS).find((name) => RECORDS[name] === kind)!;
const WHO: Record<string, Step['who']> = { either: 'either', first: 'first', both: 'partner_check' };
const STYLES: Record<string, Step['style']> = { 'read then do': 'read_then_do', 'do then confirm': 'do_then_confirm' };
const PLACES = Object.fromEntries(Object.entries(STEP_PLACES).map(([key, name]) => [name, key])) as Record<string, StepPlace>;
const nameOf = <V>(names: Record<string, V>, value: V): string => Object.keys(names).find((name) => names[name] === value)!;

const list = (values: readonly string[]): string => values.join('; ');
const referenceLine = ({ title, section, edition, status }: StepReference): string => [title, section, edition, status].join(' | ');

const recordOf = (evidence: Evidence): string => {
  switch (evidence.kind) {
    case 'confirm':
      return '';
    case 'reading':
    case 'difference':
      return evidence.unit;
    case 'count':
      return evidence.of;
    case 'choice':
      return evidence.options.map(({ key, label }) => `${key} = ${label}`).join(' | ');
    case 'note':
      return evidence.prompt;
    case 'photo':
      return evidence.of;
  }
};

/** The cells of a step, in the order of the columns. `words` is its rule in plain English. Figures stay figures. */
export function rowOf(step: Step, words: string): (string | number | null)[] {
  const { evidence } = step;
  const measured = evidence.kind === 'reading' || evidence.kind === 'difference' ? evidence : null;
  const cells: Record<Column, string | number | null> = {
    ...{ key: step.key, derivedFrom: step.derivedFrom ?? null, title: step.title, instruction: step.instruction, why: step.why },
    ...{ caution: step.caution ?? null, record: recordName(evidence.kind), recordOf: recordOf(evidence) },
    ...{ expectedFrom: measured?.expectedFrom ?? null, expectedTo: measured?.expectedTo ?? null, hint: measured?.hint ?? null },
    firstLabel: evidence.kind === 'difference' ? evidence.firstLabel : null,
    secondLabel: evidence.kind === 'difference' ? evidence.secondLabel : null,
    mustMatch: evidence.kind === 'count' ? (evidence.mustMatch ?? null) : null,
    applies: 'always' in step.applies ? null : JSON.stringify(step.applies),
    wordsOfRule: words,
    per: step.per,
    place: step.place === undefined ? null : nameOf(PLACES, step.place),
    rows: step.basis.kind === 'duty' ? list(step.basis.rows) : null,
    ...{ who: nameOf(WHO, step.who), onePersonOnly: step.onePersonOnly ? 'yes' : null, style: nameOf(STYLES, step.style) },
    ...{ minutes: step.minutes, kit: list(step.kit), qualification: step.qualification ?? null, after: list(step.after) },
    ...{
      sequence: step.sequence ?? null,
      references: step.references.map(referenceLine).join('\n'),
      alsoMeets: list(step.alsoMeets ?? []),
    },
  };
  return COLUMN_KEYS.map((column) => cells[column]);
}

const text = (cells: Cells, column: Column): string => (cells[column] ?? '').trim();
const items = (cell: string): string[] =>
  cell
    .split(/[;\n]/)
    .map((one) => one.trim())
    .filter((one) => one !== '');
/** A figure, or the text itself so that the shape of a step refuses it at its column. */
const figure = (cell: string): number | string => (/^[+-]?\d+(?:\.\d+)?$/.test(cell) ? Number(cell) : cell);
const named = <V>(names: Record<string, V>, cell: string, fallback: V): V | string =>
  cell === '' ? fallback : (names[cell.toLowerCase()] ?? cell);

function evidenceOf(cells: Cells): unknown {
  const kind = named(RECORDS, text(cells, 'record'), 'confirm');
  const of = text(cells, 'recordOf');
  const bound = (column: 'expectedFrom' | 'expectedTo') => (text(cells, column) === '' ? {} : { [column]: figure(text(cells, column)) });
  const hint = text(cells, 'hint') === '' ? {} : { hint: text(cells, 'hint') };
  const measured = { kind, unit: of, ...bound('expectedFrom'), ...bound('expectedTo'), ...hint };
  if (kind === 'reading') return measured;
  if (kind === 'difference') return { ...measured, firstLabel: text(cells, 'firstLabel'), secondLabel: text(cells, 'secondLabel') };
  if (kind === 'count') return { kind, of, ...(text(cells, 'mustMatch') === '' ? {} : { mustMatch: text(cells, 'mustMatch') }) };
  if (kind === 'note') return { kind, prompt: of };
  if (kind === 'photo') return { kind, of };
  return kind === 'choice' ? { kind, options: of.split('|').map(optionOf) } : { kind };
}

const optionOf = (part: string, at: number): { key: string; label: string } => {
  const [key, label] = part.includes('=')
    ? [part.slice(0, part.indexOf('=')), part.slice(part.indexOf('=') + 1)]
    : [`option_${at + 1}`, part];
  return { key: key.trim(), label: label.trim() };
};

const referenceOf = (line: string) => {
  const [title = '', section = '', edition = 'edition not noted', status = 'from memory'] = line.split('|').map((part) => part.trim());
  return { title, section, edition, status };
};

const COMPARISONS = ['is', 'isOneOf', 'atLeast', 'atMost', 'below', 'above', 'includes'] as const satisfies readonly Comparison[];
const CLAUSE = new RegExp(`^(\\w+) (${COMPARISONS.join('|')}) (.+)$`);

/** 'features includes attic and yearBuilt below 1978', 'service radon', or the rule as it is exported; null when it is none of these. */
export function ruleOf(cell: string): Applicability | null {
  if (cell === '') return { always: true };
  if (cell.startsWith('{')) {
    try {
      return JSON.parse(cell) as Applicability;
    } catch {
      return null;
    }
  }
  const clauses = cell.split(/ and /).map(clauseOf);
  if (clauses.some((clause) => clause === null)) return null;
  const rules = clauses as Applicability[];
  return rules.length === 1 ? rules[0]! : { all: rules };
}

function clauseOf(words: string): Applicability | null {
  const service = /^service ([\w-]+)$/.exec(words.trim());
  if (service) return { service: service[1]! };
  const [, fact, compare, value] = CLAUSE.exec(words.trim()) ?? [];
  if (fact === undefined || !(fact in FACTS)) return null;
  const said = value === 'yes' || value === 'no' ? value === 'yes' : figure(value!);
  return {
    fact: fact as FactKey,
    compare: compare as Comparison,
    value: compare === 'isOneOf' ? value!.split(',').map((one) => one.trim()) : said,
  };
}

/** What the cells say, as far as it can be read; the shape of a step is checked afterwards. `key` when the cell is blank. */
export function rawStep(cells: Cells, key: string): Record<string, unknown> {
  const optional = (name: 'derivedFrom' | 'caution' | 'qualification' | 'sequence') =>
    text(cells, name) === '' ? {} : { [name]: text(cells, name) };
  const rows = items(text(cells, 'rows'));
  const also = items(text(cells, 'alsoMeets'));
  return {
    ...{
      key: text(cells, 'key') || key,
      ...optional('derivedFrom'),
      ...optional('caution'),
      ...optional('qualification'),
      ...optional('sequence'),
    },
    ...{ title: text(cells, 'title'), instruction: text(cells, 'instruction'), why: text(cells, 'why'), evidence: evidenceOf(cells) },
    applies: ruleOf(text(cells, 'applies')),
    per: text(cells, 'per') || 'property',
    ...(text(cells, 'place') === '' ? {} : { place: named(PLACES, text(cells, 'place'), 'elsewhere') }),
    basis: rows.length === 0 ? { kind: 'own_extra' } : { kind: 'duty', rows },
    who: named(WHO, text(cells, 'who'), 'either'),
    ...(/^(yes|true|1)$/i.test(text(cells, 'onePersonOnly')) ? { onePersonOnly: true } : {}),
    style: named(STYLES, text(cells, 'style'), text(cells, 'caution') === '' ? 'do_then_confirm' : 'read_then_do'),
    minutes: text(cells, 'minutes') === '' ? 1 : figure(text(cells, 'minutes')),
    ...{ kit: items(text(cells, 'kit')), after: items(text(cells, 'after')) },
    references: (cells.references ?? '')
      .split('\n')
      .filter((line) => line.trim() !== '')
      .map(referenceOf),
    ...(also.length === 0 ? {} : { alsoMeets: also }),
  };
}
