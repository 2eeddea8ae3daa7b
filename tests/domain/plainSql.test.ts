// Writes in Prisma's words as one statement each: what they say, and what is left to Prisma. That both leave the same rows is tested beside
// the database (tests/usecases/plainWrites.test.ts).
import { expect, it } from 'vitest';
import { plainSql, type Table } from '@backsight/store/plainSql';

const columns = {
  id: 'String',
  kind: 'String',
  dueOn: 'DateTime',
  body: 'Json',
  next: 'BigInt',
  states: 'String',
  scan: 'Bytes',
  version: 'Int',
};
const TABLE: Table = {
  name: 'thing',
  fields: new Map(Object.entries(columns).map(([name, type]) => [name, { column: name === 'dueOn' ? 'due_on' : name, type }])),
};
const DAY = new Date('2026-05-04T00:00:00Z');
const said = (write: string, args: object) => plainSql(TABLE, write, args);

it.each([
  [
    'a row, without what is not given',
    'create',
    { data: { id: 'a', kind: undefined, dueOn: DAY, body: [1, { a: null }], next: 5n, states: ['x', 'y'] } },
    'INSERT INTO "thing" ("id", "due_on", "body", "next", "states") VALUES ($1, $2, $3, $4, $5)',
    ['a', '2026-05-04T00:00:00.000Z', '[1,{"a":null}]', '5', ['x', 'y']],
  ],
  ['words as JSON', 'create', { data: { body: 'x' } }, 'INSERT INTO "thing" ("body") VALUES ($1)', ['"x"']],
  [
    'bytes of a part of a buffer',
    'create',
    { data: { scan: new Uint8Array([1, 2, 3, 4]).subarray(1, 3) } },
    'INSERT INTO "thing" ("scan") VALUES ($1)',
    [Buffer.from([2, 3])],
  ],
  [
    'rows of which each leaves something out',
    'createMany',
    {
      data: [
        { id: 'a', kind: null },
        { id: 'b', version: 2 },
      ],
      skipDuplicates: true,
    },
    'INSERT INTO "thing" ("id", "kind", "version") VALUES ($1, $2, DEFAULT), ($3, DEFAULT, $4) ON CONFLICT DO NOTHING',
    ['a', null, 'b', 2],
  ],
  [
    'a change, with one counted up',
    'update',
    { where: { id: 'a' }, data: { dueOn: null, version: { increment: 1 } } },
    'UPDATE "thing" SET "due_on" = $1, "version" = "thing"."version" + $2 WHERE "id" = $3',
    [null, 1, 'a'],
  ],
  [
    'a change of those for which everything is so',
    'updateMany',
    { where: { kind: { in: ['a', 'b'] }, dueOn: { lt: DAY }, scan: null, next: { not: null }, version: undefined }, data: { kind: 'c' } },
    'UPDATE "thing" SET "kind" = $1 WHERE "kind" = ANY ($2) AND "due_on" < $3 AND "scan" IS NULL AND "next" IS NOT NULL',
    ['c', ['a', 'b'], '2026-05-04T00:00:00.000Z'],
  ],
  ['all of a table', 'deleteMany', {}, 'DELETE FROM "thing"', []],
  [
    'a row named by two fields',
    'delete',
    { where: { id_kind: { id: 'a', kind: 'b' } } },
    'DELETE FROM "thing" WHERE "id" = $1 AND "kind" = $2',
    ['a', 'b'],
  ],
  [
    'a row that may be there',
    'upsert',
    { where: { dueOn: DAY }, create: { dueOn: new Date(DAY), kind: 'a' }, update: { kind: 'b', version: { increment: 1 } } },
    'INSERT INTO "thing" ("due_on", "kind") VALUES ($1, $2) ON CONFLICT ("due_on") DO UPDATE SET "kind" = $3, "version" = "thing"."version" + $4',
    ['2026-05-04T00:00:00.000Z', 'a', 'b', 1],
  ],
] as const)('says %s', (_, write, args, text, values) => {
  expect(said(write, args)).toMatchObject({ text, values });
});

class Nothing {}
it.each([
  ['a read', 'findMany', {}],
  ['a field of another table', 'updateMany', { where: { job: { id: 'a' } }, data: { kind: 'a' } }],
  ['a row made with its others', 'create', { data: { id: 'a', lines: { create: [] } } }],
  ['an operator that is not known here', 'updateMany', { where: { kind: { contains: 'a' } }, data: { kind: 'a' } }],
  ['two operators at once', 'deleteMany', { where: { version: { gt: 1, lt: 3 } } }],
  ['a condition on JSON', 'deleteMany', { where: { body: 'a' } }],
  ['everything not', 'deleteMany', { where: { NOT: { id: 'a' } } }],
  ['one of the two nothings of JSON', 'create', { data: { body: new Nothing() } }],
  ['a change of nothing', 'update', { where: { id: 'a' }, data: {} }],
  ['a row that may be there under another name', 'upsert', { where: { id: 'a' }, create: { id: 'b' }, update: { kind: 'c' } }],
  ['more values than one statement takes', 'createMany', { data: Array.from({ length: 15_001 }, () => ({ id: 'a', kind: 'b' })) }],
])('leaves to Prisma: %s', (_, write, args) => {
  expect(said(write, args)).toBeNull();
});

it('gives a name only to what does not hang on how many rows there are', () => {
  const rows = (count: number) => said('createMany', { data: Array.from({ length: count }, () => ({ id: 'a' })) });
  expect([1, 2, 3].map((count) => rows(count)!.fixed)).toEqual([true, true, false]);
});
