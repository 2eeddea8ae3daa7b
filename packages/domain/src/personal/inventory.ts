// Where the firm keeps personal data: every column of the database that can hold words, what it holds, and what is left of it when it goes. Export, erasure and retention read this, so what is missing here fails a test.
import { TABLES } from './data/tables.ts';
import type { Record_ } from './kinds.ts';

/** What a column holds of somebody. */
export const KINDS = {
  name: 'names',
  contact: 'phones, addresses and devices',
  place: 'where somebody lives',
  words: 'what was written about somebody',
  paper: 'papers',
  opinion: 'opinions of the firm about a matter',
} as const;
export type PersonalKind = keyof typeof KINDS;

/**
 * What becomes of a column when its row's time is over.
 * `blank`: this value stays in its place ('#id' = the words that nothing is kept and the row's id, where each has to differ);
 * `text`: it names words that are erased whole; `file`: it names a file whose bytes go.
 */
export type Going = { blank: string | null | readonly never[] | Record<string, never> } | 'text' | 'file';

/** What stands in the place of what is gone. */
export const GONE = '(no longer kept)';

/**
 * `code`: keys, states, numbers and words of the firm's own about nobody. `business`: how another firm, or this one, is reached; it stays.
 * `secret`: digests and keys, never given to anybody. `elsewhere`: technical copies that go by themselves.
 */
export type Column = 'code' | 'business' | 'secret' | 'elsewhere' | { kind: PersonalKind; going: Going };

/**
 * A way from a row to the thing that it is about, as `column` or `column table` for each step, the last column being that thing's id.
 * `address`: by the address that a mail went to.
 */
export type Path = readonly string[];

export type Table = {
  name: string;
  record: Record_;
  /** The ways to the job, for records of jobs; to the inquiry or the person, for theirs. */
  unit: readonly Path[];
  /** The ways to somebody outside the firm whom the row is about. */
  party: readonly Path[];
  /** The ways to somebody of the firm whom the row is about. */
  person: readonly Path[];
  columns: Readonly<Record<string, Column>>;
};

const SPELLED: Readonly<Record<string, Going>> = {
  gone: { blank: GONE },
  null: { blank: null },
  "''": { blank: '' },
  '{}': { blank: {} },
  '[]': { blank: [] },
  '#id': { blank: '#id' },
  text: 'text',
  file: 'file',
};

function column(spelled: string): Column {
  if (spelled === 'code' || spelled === 'business' || spelled === 'secret' || spelled === 'elsewhere') return spelled;
  const [kind, going = ''] = spelled.split(' ') as [PersonalKind, string?];
  const becomes = SPELLED[going];
  if (!(kind in KINDS) || becomes === undefined) throw new Error(`the inventory of personal data holds "${spelled}"`);
  return { kind, going: becomes };
}

const path = (spelled: string): Path => spelled.split(' > ');

/** Every table, in the order of the file of data. */
export const INVENTORY: readonly Table[] = Object.entries(TABLES).map(([name, [record, ways, columns]]) => ({
  name,
  record,
  unit: (ways.unit?.split(' | ') ?? []).map(path),
  party: (ways.party ?? []).map(path),
  person: (ways.person ?? []).map(path),
  columns: Object.fromEntries(Object.entries(columns).map(([key, spelled]) => [key, column(spelled)])),
}));

export const tableOf = (name: string): Table | undefined => INVENTORY.find((table) => table.name === name);

/** Columns whose value is replaced, with what stands there afterwards. */
export const blanked = (table: Table): { column: string; kind: PersonalKind; blank: unknown }[] =>
  Object.entries(table.columns).flatMap(([key, of]) =>
    typeof of === 'object' && typeof of.going === 'object' ? [{ column: key, kind: of.kind, blank: of.going.blank }] : [],
  );

/** Columns that name words or files that go. */
export const naming = (table: Table, what: 'text' | 'file'): { column: string; kind: PersonalKind }[] =>
  Object.entries(table.columns).flatMap(([key, of]) =>
    typeof of === 'object' && of.going === what ? [{ column: key, kind: of.kind }] : [],
  );
