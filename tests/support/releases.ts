// Every schema that a firm may have today: one database walks through them all, gets at each what fits there, and is brought up from any of them by a copy.
import { hash as argon2id } from '@node-rs/argon2';
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { inject } from 'vitest';
import { sealAudit } from '@backsight/store/audit';
import { copyIn } from '@backsight/store/copy';
import { migrate, readMigrations } from '@backsight/store/migrate';
import { root } from '../../apps/api/scripts/schemaEngine.ts';
import { demoFor } from '../../prisma/seed/demo/demo.ts';
import { loadTables } from '../../prisma/seed/demo/load.ts';
import { everyRow, writeWhatFits, type Rows } from './carried.ts';
import { CHEAP, PASSWORD } from './cast.ts';
import type { TestService } from './database.ts';

export const ALL = path.join(root, 'prisma/migrations');
/** The rules of the database came as its second change and left the house with the first: nobody has the first alone. */
const FIRST = '0002';

type Row = Record<string, any>;
/** What a column that is gone today said. */
const ONCE: Record<string, (row: Row) => Row> = {
  callback: (row) => ({ ...row, acknowledge_due_at: row.received_at, triage_due_at: row.received_at, decision_due_at: row.received_at }),
  agreement_text: (row) => ({ ...row, body: row.clauses.map(({ body }: Row) => body).join('\n\n') }),
};
/** Rows that nobody could have before a change, though its tables would have taken them: no release wrote photos, or counted reports, before. */
const SINCE: readonly [table: string, is: (row: Row) => boolean, change: string][] = [
  ['number_counter', ({ kind }) => kind === 'report', '0015'],
  ['site_photo', () => true, '0022'],
];

/** The rows of a firm of `jobs` jobs, with at least one in every table; everybody signs in with the password of the cast. */
export async function firmOfToday(service: TestService, now: Date, jobs: number): Promise<{ rows: Rows; left: string[] }> {
  const passwordHash = await argon2id(PASSWORD, CHEAP);
  const { tables } = await demoFor(now, { publicUrl: 'http://office.test', passwordHash, jobs, pastDays: 0 });
  await copyIn(service.url, (session) => loadTables(session, tables, now, ['invoice', 'ledgerEntry']));
  while ((await sealAudit(service.database, { limit: 5_000 })) > 0);
  const { rows, left } = await everyRow(service.url);
  for (const [table, once] of Object.entries(ONCE)) rows.set(table, rows.get(table)!.map(once));
  return { rows, left };
}

export const urlOf = (database: string): string => inject('server').replace('TEMPLATE_NAME', database);

async function asAdmin(sql: string): Promise<void> {
  const admin = new pg.Client(urlOf('postgres'));
  await admin.connect();
  await admin.query(sql).finally(() => admin.end());
}

/**
 * Walks from the first schema to this one. At each, `at` hears its name and how many rows the firm had there, and may bring up a copy:
 * that gives `work` the address of a database brought from there to here in one go, and drops it afterwards.
 */
export async function walkReleases(
  rows: Rows,
  at: (change: string, held: number, bringUp: (work: (url: string) => Promise<void>) => Promise<void>) => Promise<void>,
): Promise<void> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-migrations-'));
  const name = `t_${randomUUID().slice(0, 8)}`;
  await asAdmin(`CREATE DATABASE ${name}`);
  const left: Rows = new Map([...rows].map(([table, all]) => [table, [...all]]));
  let held = 0;
  try {
    for (const change of readMigrations(ALL).map((migration) => migration.name)) {
      fs.cpSync(path.join(ALL, change), path.join(folder, change), { recursive: true });
      await migrate(urlOf(name), folder);
      if (change < FIRST) continue;
      held += await written(urlOf(name), left, change);
      await at(change, held, async (work) => {
        const copy = `${name}_copy`;
        await asAdmin(`CREATE DATABASE ${copy} TEMPLATE ${name} STRATEGY file_copy`);
        try {
          await work(urlOf(copy));
        } finally {
          await asAdmin(`DROP DATABASE ${copy}`);
        }
      });
    }
  } finally {
    await asAdmin(`DROP DATABASE ${name}`);
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

async function written(url: string, left: Rows, change: string): Promise<number> {
  const tooNew = SINCE.filter(([, , since]) => change < since);
  const later = tooNew.map(([table, is]) => [table, left.get(table)!.filter(is)] as const);
  for (const [table, is] of tooNew)
    left.set(
      table,
      left.get(table)!.filter((row) => !is(row)),
    );
  const taken = await writeWhatFits(url, left);
  for (const [table, waiting] of later) left.set(table, [...left.get(table)!, ...waiting]);
  return taken;
}

/** How many rows each table holds. */
export async function countsOf(url: string): Promise<Map<string, number>> {
  const client = new pg.Client(url);
  await client.connect();
  try {
    const { rows } = await client.query<{ name: string }>(
      `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations'`,
    );
    const sums = rows.map(({ name }) => `SELECT '${name}' AS name, count(*)::int AS n FROM "${name}"`).join(' UNION ALL ');
    return new Map((await client.query<{ name: string; n: number }>(sums)).rows.map(({ name, n }) => [name, n]));
  } finally {
    await client.end();
  }
}
