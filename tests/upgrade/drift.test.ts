// The schema file and the migrations tell the same story, and a restore can copy table after table.
import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { describe, expect, it } from 'vitest';
import { diffDatabase, root } from '../../apps/api/scripts/schemaEngine.ts';
import { testService } from '../support/database.ts';

const service = testService();
const schema = fs.readFileSync(path.join(root, 'prisma/schema.prisma'), 'utf8');
const models = [...schema.matchAll(/((?:^\/\/\/.*\n)*)^model (\w+) \{\n([\s\S]*?)^\}/gm)].map(([, comment, name, body]) => ({
  name: name!,
  comment: comment!,
  table: /@@map\("(\w+)"\)/.exec(body!)?.[1],
}));

describe('schema and migrations', () => {
  it('agree', async () => {
    const { exitCode, stdout } = await diffDatabase(service.url);
    expect(exitCode, stdout).toBe(0);
  });
  it('would be seen to differ by one column', async () => {
    const client = new pg.Client(service.url);
    await client.connect();
    try {
      await client.query('ALTER TABLE town ADD COLUMN elevation integer');
      expect((await diffDatabase(service.url)).stdout).toMatch(/DROP COLUMN "elevation"/);
      await client.query('ALTER TABLE town DROP COLUMN elevation');
    } finally {
      await client.end();
    }
  });
  it('name every table once, in small letters', async () => {
    expect(models.filter(({ table }) => !table || !/^[a-z][a-z_]*$/.test(table)).map(({ name }) => name)).toEqual([]);
    const tables = await service.database.read.rows<{ name: string }>(
      `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations' ORDER BY 1`,
    );
    expect(tables.map(({ name }) => name)).toEqual(models.map(({ table }) => table!).sort());
  });
  it('hold no circle of foreign keys but of a table to itself', async () => {
    const edges = await service.database.read.rows<{ from: string; to: string }>(
      `SELECT DISTINCT conrelid::regclass::text AS "from", confrelid::regclass::text AS "to" FROM pg_constraint WHERE contype = 'f' AND conrelid <> confrelid`,
    );
    const left = new Map<string, Set<string>>();
    for (const { from, to } of edges) left.set(from, (left.get(from) ?? new Set()).add(to));
    for (let free = true; free;) {
      free = false;
      for (const [table, needs] of left) {
        for (const other of needs) if (!left.has(other)) needs.delete(other);
        if (needs.size === 0) free = left.delete(table) || free;
      }
    }
    expect([...left.keys()]).toEqual([]);
  });
});

describe('tables that are only added to', () => {
  const guarded = () =>
    service.database.read.rows<{ name: string }>(
      `SELECT DISTINCT tgrelid::regclass::text AS name FROM pg_trigger WHERE tgname = 'history_is_kept' ORDER BY 1`,
    );
  it('are guarded wherever the schema says so', async () => {
    const said = models
      .filter(({ comment }) => /only (?:ever )?added|never changed|its words never change/i.test(comment))
      .map(({ table }) => table!);
    expect(said.length).toBeGreaterThan(5);
    const names = (await guarded()).map(({ name }) => name);
    expect(said.filter((table) => !names.includes(table))).toEqual([]);
  });
  it('cannot be changed by the service, which lacks the right', async () => {
    const open = await service.database.read.rows<{ name: string }>(
      `SELECT DISTINCT tgrelid::regclass::text AS name FROM pg_trigger WHERE tgname = 'history_is_kept'
         AND (has_table_privilege('backsight_app', tgrelid, 'UPDATE') OR has_table_privilege('backsight_app', tgrelid, 'DELETE') OR has_table_privilege('backsight_app', tgrelid, 'TRUNCATE'))`,
    );
    expect(open).toEqual([]);
  });
});
