// Puts a backup in the place of what a database holds: all of it in one transaction, or nothing.
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import type { Manifest } from '@backsight/domain/backup/stored';
import { applyTo, TABLE, type Migration } from '../migrate.ts';
import { BadBackup, type Entry } from './archive.ts';
import { connected } from '../told.ts';
import { copyOf } from './dump.ts';

type Key = { table: string; name: string; means: string };
const FOREIGN_KEYS = `SELECT conrelid::regclass::text AS table, conname AS name, pg_get_constraintdef(oid) AS means FROM pg_constraint
  WHERE contype = 'f' AND connamespace = 'public'::regnamespace ORDER BY 1, 2`;

export type Load = {
  /** As the owner of the tables. */ url: string;
  manifest: Manifest;
  /** Of this program, oldest first. */ migrations: readonly Migration[];
  entries: AsyncIterable<Entry>;
  /** Hears of every entry that is loaded. */ told: (entry: string) => void;
};

/** What of our changes the backup was made after. @throws BadBackup when it is newer than this program, or its changes are others */
export function migrationsOf({ migrations: theirs }: Manifest, ours: readonly Migration[]): Migration[] {
  const strange = theirs.find(({ name, checksum }, at) => ours[at]?.name !== name || ours[at]?.checksum !== checksum);
  if (strange)
    throw new BadBackup(
      `The backup has the change "${strange.name}", which this version does not know: it was made by another version of Backsight.`,
    );
  return ours.slice(0, theirs.length);
}

/** The schema as of the backup, its rows, and every foreign key looked at anew. @throws Error when a row breaks a rule; then everything is as before */
export async function load({ url, manifest, migrations, entries, told }: Load): Promise<void> {
  const client = await connected(url);
  try {
    await client.query('BEGIN');
    await client.query('DROP SCHEMA public CASCADE');
    await client.query('CREATE SCHEMA public');
    await client.query(TABLE);
    for (const migration of migrationsOf(manifest, migrations)) await applyTo(client, migration);
    await client.query('SET CONSTRAINTS ALL IMMEDIATE');
    await loadRows(client, manifest, entries, told);
    await client.query('COMMIT');
  } catch (error) {
    await client.query('ROLLBACK').catch(() => {});
    throw error;
  } finally {
    await client.end();
  }
}

/** Triggers stand still, for they tell of acts and these rows are none; foreign keys come back at the end, and look at every row. */
async function loadRows(client: pg.Client, { tables }: Manifest, entries: AsyncIterable<Entry>, told: Load['told']): Promise<void> {
  const { rows: keys } = await client.query<Key>(FOREIGN_KEYS);
  for (const { table, name } of keys) await client.query(`ALTER TABLE ${table} DROP CONSTRAINT "${name}"`);
  for (const { name } of tables) await client.query(`ALTER TABLE "${name}" DISABLE TRIGGER USER`);
  await client.query(`TRUNCATE ${tables.map(({ name }) => `"${name}"`).join(', ')}`); // what the changes themselves put there
  const byName = new Map(tables.map((table) => [table.name, table]));
  for await (const { name, bytes } of entries) {
    const [folder, table] = name.split('/');
    if (folder !== 'tables') continue;
    await pipeline(Readable.from([bytes]), client.query(copyFrom(`${copyOf(byName.get(table!)!)} FROM STDIN`)));
    told(name);
  }
  for (const { name, rows } of tables) {
    const [found] = (await client.query<{ n: number }>(`SELECT count(*)::int AS n FROM "${name}"`)).rows;
    if (found!.n !== rows) throw new BadBackup(`The backup has ${rows} rows of ${name}, and ${found!.n} came.`);
    await client.query(`ALTER TABLE "${name}" ENABLE TRIGGER USER`);
  }
  for (const { table, name, means } of keys) await client.query(`ALTER TABLE ${table} ADD CONSTRAINT "${name}" ${means}`);
}
