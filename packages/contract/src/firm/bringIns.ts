// Records that a firm arrives with, brought in from a spreadsheet.
import { z } from 'zod';
import { ALL_RECORD_KINDS, fieldsOf, RECORD_KINDS, type Field, type RecordKind } from '@backsight/domain/firm/records/fields';
import { readDay, readMoney } from '@backsight/domain/firm/records/cells';
import { id, idParams, instant, line, page, route } from '../route.ts';

export { ALL_RECORD_KINDS, fieldsOf, readDay, readMoney, RECORD_KINDS };
export type { Field, RecordKind };

const area = 'firm';
const WHO = ['owner', 'office_manager'] as const;
const ONE = '/api/bring-ins/:id';
/** Megabytes of a file; the body has it in base64, and room for one that is too large, so that the answer can say so. */
export const MOST_MEGABYTES = 20;
const BODY_LIMIT = 45_000_000;

const kind = z.enum(ALL_RECORD_KINDS as [RecordKind, ...RecordKind[]]);
const columns = z.record(z.string().max(40), z.int().min(0).max(999));
const formats = z.strictObject({ days: z.enum(['iso', 'mdy', 'dmy']), money: z.enum(['dollars', 'cents']) });
const mapping = z.strictObject({ columns, formats });
const text = z.string();
const weight = z.enum(['stops', 'look', 'known']);

const counts = z.strictObject({
  rows: z.int(),
  /** New ones; on file already or twice in the file; left out because something is to be put right; to be looked at. */
  fresh: z.int(),
  known: z.int(),
  left: z.int(),
  look: z.int(),
  /** Clients and properties that come along with jobs. */
  clients: z.int(),
  properties: z.int(),
});
const bringInLine = z.strictObject({
  id,
  kind,
  name: text,
  bytes: z.int(),
  rows: z.int(),
  state: z.enum(['to_map', 'checking', 'checked', 'bringing', 'done', 'undoing', 'undone', 'thrown_away']),
  askedBy: text,
  at: instant,
  broughtAt: instant.nullable(),
  endedAt: instant.nullable(),
  version: z.int(),
  /** Why the last try did not come through. */
  note: text.nullable(),
  counts: counts.nullable(),
  progress: z.strictObject({ phase: z.enum(['reading', 'comparing', 'writing', 'taking out']), done: z.int(), total: z.int() }).nullable(),
});
const bringIn = bringInLine.extend({
  heads: z.array(text),
  examples: z.array(z.strictObject({ line: z.int(), cells: z.array(text) })),
  letters: z.enum(['UTF-8', 'UTF-16', 'Windows-1252']),
  /** The character between two cells. */
  parting: text,
  mapping,
  /** Fields that are needed and have no column. */
  missing: z.array(text),
  /** The file is kept until a week after the end. */
  hasFile: z.boolean(),
});
const problem = z.strictObject({ position: z.int(), line: z.int(), column: text, value: text, text, weight });
const changed = z.strictObject({ id, version: z.int() });

export type BringInLine = z.output<typeof bringInLine>;
export type BringIn = z.output<typeof bringIn>;
export type BringInProblem = z.output<typeof problem>;
export type BringInMapping = z.output<typeof mapping>;
export type BringInCounts = z.output<typeof counts>;

export const bringInRoutes = {
  list: route({
    method: 'GET',
    path: '/api/bring-ins',
    area,
    summary: 'Spreadsheets from which records were or are to be brought in, newest first',
    who: WHO,
    query: z.strictObject({ before: id.optional() }),
    reply: page(bringInLine),
  }),
  take: route({
    method: 'POST',
    path: '/api/bring-ins',
    area,
    summary: 'Take a spreadsheet in (comma-separated text) and guess what its columns mean; nothing is brought in yet',
    who: WHO,
    creates: true,
    bodyLimit: BODY_LIMIT,
    body: z
      .strictObject({
        id,
        kind,
        file: z
          .strictObject({
            name: line(200),
            base64: z
              .string()
              .min(1, 'There is nothing in this file.')
              .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'Choose the file once more: it did not arrive whole.'),
          })
          .optional(),
        text: z.string().min(1).optional(),
      })
      .refine((body) => (body.file === undefined) !== (body.text === undefined), 'Give a file or pasted text, one of the two.'),
    reply: changed,
  }),
  one: route({
    method: 'GET',
    path: ONE,
    area,
    summary: 'A spreadsheet: its heads, first rows, mapping, counts, and how far the work at it is',
    who: WHO,
    params: idParams,
    reply: bringIn,
  }),
  map: route({
    method: 'PUT',
    path: `${ONE}/mapping`,
    area,
    summary: 'Say which column is which field and how days and amounts are written; every row is then looked through',
    who: WHO,
    edits: true,
    params: idParams,
    body: mapping,
    reply: changed,
  }),
  problems: route({
    method: 'GET',
    path: `${ONE}/problems`,
    area,
    summary: 'What is to be said about rows, by line; stops: the row is left out',
    who: WHO,
    params: idParams,
    query: z.strictObject({ after: z.coerce.number().int().min(-1).max(2_000_000_000).optional(), weight: weight.optional() }),
    reply: page(problem),
  }),
  problemsTable: route({
    method: 'GET',
    path: `${ONE}/problems.csv`,
    area,
    summary: 'Every problem as comma-separated text (RFC 4180)',
    who: WHO,
    params: idParams,
    reply: z.unknown(),
  }),
  bring: route({
    method: 'POST',
    path: `${ONE}/bring`,
    area,
    summary: 'Bring the rows in that are right, all of them or none; rows with something to put right only when they may be left out',
    who: WHO,
    edits: true,
    params: idParams,
    body: z.strictObject({ leaveOut: z.boolean() }),
    reply: changed,
  }),
  brought: route({
    method: 'GET',
    path: `${ONE}/records`,
    area,
    summary: 'What a spreadsheet brought',
    who: WHO,
    params: idParams,
    query: z.strictObject({ after: id.optional() }),
    reply: page(z.strictObject({ id, name: text, about: text, jobId: id.nullable() })),
  }),
  depends: route({
    method: 'GET',
    path: `${ONE}/depends`,
    area,
    summary: 'What has come to depend on what a spreadsheet brought; empty where it can be taken out again',
    who: WHO,
    params: idParams,
    reply: z.strictObject({ items: z.array(z.strictObject({ record: text, because: text })) }),
  }),
  undo: route({
    method: 'POST',
    path: `${ONE}/undo`,
    area,
    summary: 'Take out again what a spreadsheet brought, as long as nothing depends on it',
    who: WHO,
    edits: true,
    params: idParams,
    reply: changed,
  }),
  throwAway: route({
    method: 'POST',
    path: `${ONE}/throw-away`,
    area,
    summary: 'Throw a spreadsheet away that was not brought in',
    who: WHO,
    edits: true,
    params: idParams,
    reply: changed,
  }),
  sample: route({
    method: 'GET',
    path: '/api/bring-in-samples/:kind',
    area,
    summary: 'A small file to begin with: heads and three invented rows (RFC 4180)',
    who: WHO,
    params: z.strictObject({ kind }),
    reply: z.unknown(),
  }),
};
