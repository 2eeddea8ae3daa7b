// Brings a database to this version's schema: numbered SQL files, all that are missing or none of them, safe for parallel starts.
import { createHash, randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import type pg from 'pg';
import { connected } from './told.ts';

/** Prisma's own advisory key and table, so that its command line agrees with what we applied. */
const KEY = 72707369;
export const TABLE = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" ("id" VARCHAR(36) PRIMARY KEY NOT NULL, "checksum" VARCHAR(64) NOT NULL,
  "finished_at" TIMESTAMPTZ, "migration_name" VARCHAR(255) NOT NULL, "logs" TEXT, "rolled_back_at" TIMESTAMPTZ,
  "started_at" TIMESTAMPTZ NOT NULL DEFAULT now(), "applied_steps_count" INTEGER NOT NULL DEFAULT 0)`;

export type Migration = { name: string; sql: string; checksum: string };

/** This version cannot work with the database, which is as it was before; the message says what to do. */
export class CannotUpgrade extends Error {}

/** The migrations of this version, in order. */
export function readMigrations(folder: string): Migration[] {
  const names = fs
    .readdirSync(folder, { withFileTypes: true })
    .filter((d) => d.isDirectory())
    .map((d) => d.name)
    .sort();
  return names.map((name) => {
    const sql = fs.readFileSync(path.join(folder, name, 'migration.sql'), 'utf8');
    return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
  });
}

/**
 * Applies what is missing and returns the names.
 * @throws CannotUpgrade when the database is newer than this version, an applied file was changed since, or one of the changes cannot be made
 */
export async function migrate(url: string, folder: string): Promise<string[]> {
  const client = await connected(url);
  try {
    await client.query('SELECT pg_advisory_lock($1)', [KEY]);
    await client.query('BEGIN');
    await client.query(TABLE);
    const missing = await missingIn(client, folder);
    for (const migration of missing) await apply(client, migration);
    await client.query('COMMIT');
    return missing.map((m) => m.name);
  } finally {
    await client.end(); // what was not committed is undone
  }
}

async function missingIn(client: pg.Client, folder: string): Promise<Migration[]> {
  const known = await client.query(
    'SELECT migration_name AS name, checksum FROM "_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL',
  );
  const done = new Map<string, string>(known.rows.map((r) => [r.name, r.checksum]));
  const ours = readMigrations(folder);
  refuseNewer(done, ours);
  return ours.filter((m) => !isApplied(done, m));
}

/** The changes that would come to the database of a firm; none where no firm is yet. @throws CannotUpgrade as `migrate` does */
export async function changesAhead(url: string, folder: string): Promise<string[]> {
  const client = await connected(url);
  try {
    const there = await client.query(`SELECT to_regclass('public.firm') IS NOT NULL AS firm`);
    if (!there.rows[0].firm || (await client.query('SELECT FROM firm')).rowCount === 0) return [];
    return (await missingIn(client, folder)).map(({ name }) => name);
  } finally {
    await client.end();
  }
}

function refuseNewer(done: Map<string, string>, ours: Migration[]): void {
  const unknown = [...done.keys()].find((name) => !ours.some((m) => m.name === name));
  if (unknown)
    throw new CannotUpgrade(
      `The database has the change "${unknown}", which this version does not know: it belongs to a newer version of Backsight. Nothing was changed. Start that version, or put the backup that it made before its changes into an empty installation of this one (README, Keeping it safe).`,
    );
}

function isApplied(done: Map<string, string>, migration: Migration): boolean {
  const checksum = done.get(migration.name);
  if (checksum !== undefined && checksum !== migration.checksum)
    throw new CannotUpgrade(
      `The change ${migration.name} was made by a version whose file of it differs from the one here: these are not the files of one version of Backsight. Nothing was changed. Get the files of the version anew.`,
    );
  return checksum !== undefined;
}

/** Applies one and notes it, in the transaction that is under way. */
export async function applyTo(client: pg.Client, migration: Migration): Promise<void> {
  await client.query(migration.sql);
  await client.query(
    'INSERT INTO "_prisma_migrations" (id, checksum, migration_name, finished_at, applied_steps_count) VALUES ($1, $2, $3, clock_timestamp(), 1)',
    [randomUUID(), migration.checksum, migration.name],
  );
}

/** What waits for the end of a transaction is looked at after each change, for the next one may alter the tables; it waits again afterwards. */
async function apply(client: pg.Client, migration: Migration): Promise<void> {
  try {
    await applyTo(client, migration);
    await client.query('SET CONSTRAINTS ALL IMMEDIATE');
    const { rows } = await client.query<{ name: string }>(DEFERRED);
    if (rows.length > 0) await client.query(`SET CONSTRAINTS ${rows.map(({ name }) => name).join(', ')} DEFERRED`);
  } catch (error) {
    const { message, detail } = error as pg.DatabaseError;
    throw new CannotUpgrade(
      `This version could not change the database: ${migration.name}: ${message}${detail ? ` (${detail})` : ''}. Nothing was changed. The version that ran before starts and works as it did; keep this line for whoever mends it.`,
      { cause: error },
    );
  }
}

const DEFERRED = `SELECT DISTINCT quote_ident(conname) AS name FROM pg_constraint WHERE condeferred AND connamespace = 'public'::regnamespace`;
