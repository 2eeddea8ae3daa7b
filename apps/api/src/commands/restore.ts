// restore FILE [--dry-run] [--replace]: a backup in the place of what is there; a dry run tries all of it in a database of its own.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import pg from 'pg';
import type { Manifest } from '@backsight/domain/backup/stored';
import { backupPlace, checkArchive } from '@backsight/store/backup/archive';
import { migrationsOf } from '@backsight/store/backup/load';
import { startEmbedded } from '@backsight/store/embedded/server';
import { readMigrations } from '@backsight/store/migrate';
import { makeBackup } from '@backsight/usecases/backup/makeBackup';
import { restoreBackup, type RestoreAsk } from '@backsight/usecases/backup/restoreBackup';
import { WrongSetting } from '../config.ts';
import { alone } from './reach.ts';
import type { Context } from './context.ts';
import { mustHold } from './verify.ts';

const HOW = 'Say which backup: restore FILE, with --dry-run to try it and change nothing, or --replace where a firm is there already.';

export async function restore(context: Context, words: readonly string[]): Promise<void> {
  const { config, root, say } = context;
  const { file, dryRun, replace } = asked(words);
  const passphrase = config.backupPassphrase ?? null;
  say(`reading ${file}`);
  const manifest = await checkArchive(file, passphrase);
  const migrations = path.join(root, 'prisma/migrations');
  migrationsOf(manifest, readMigrations(migrations));
  const rows = manifest.tables.reduce((sum, table) => sum + table.rows, 0);
  say(`  whole: ${manifest.firm ?? 'no firm yet'}, ${manifest.madeAt}, ${rows.toLocaleString('en-US')} rows`);
  const ask = { file, passphrase, manifest, migrations, clock: () => new Date(), say };
  if (dryRun) {
    await tried(context, ask);
    say('A dry run: everything could be restored, and nothing was changed.');
    return;
  }
  await alone(context, async (url) => {
    await putAside(context, url, replace, manifest, passphrase);
    mustHold(await restoreBackup({ ...ask, url, dataDir: config.dataDir }));
  });
  say('Restored. What was recorded after the backup is not in it, and everybody signs in anew.');
}

function asked(words: readonly string[]): { file: string; dryRun: boolean; replace: boolean } {
  try {
    const options = { 'dry-run': { type: 'boolean' }, replace: { type: 'boolean' } } as const;
    const { values, positionals } = parseArgs({ args: [...words], options, allowPositionals: true });
    if (positionals.length === 1)
      return { file: path.resolve(positionals[0]!), dryRun: values['dry-run'] === true, replace: values.replace === true };
  } catch {
    // an unknown word is answered as a missing one is
  }
  throw new WrongSetting(HOW);
}

/** In a server and a folder that are gone afterwards. */
async function tried({ root }: Context, ask: Omit<RestoreAsk, 'url' | 'dataDir'>): Promise<void> {
  const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-dry-run-'));
  fs.chmodSync(dataDir, 0o755); // the database server runs as another user where this one is root
  const server = await startEmbedded({ dataDir, from: path.join(root, 'packages/store/package.json'), volatile: true });
  try {
    mustHold(await restoreBackup({ ...ask, url: server.url('postgres'), dataDir }));
  } finally {
    await server.stop();
    fs.rmSync(dataDir, { recursive: true, force: true });
  }
}

/** Whatever firm is there is backed up before it goes, and only goes when somebody said so. */
async function putAside(
  { config, version, say }: Context,
  url: string,
  replace: boolean,
  manifest: Manifest,
  passphrase: string | null,
): Promise<void> {
  const firm = await firmAt(url);
  if (firm === null) return;
  if (!replace)
    throw new WrongSetting(
      `There is a firm here already: ${firm}. With --replace the backup of ${manifest.madeAt} takes its place; a backup of what is there is made first.`,
    );
  const file = backupPlace(config.dataDir, 'replaced', new Date(), passphrase);
  say(`making a backup of what is there: ${file}`);
  await makeBackup({ url, dataDir: config.dataDir, file, passphrase, version, clock: () => new Date(), say });
}

async function firmAt(url: string): Promise<string | null> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    const { rows } = await client.query<{ there: boolean }>(`SELECT to_regclass('public.firm') IS NOT NULL AS there`);
    if (!rows[0]!.there) return null;
    return (await client.query<{ name: string }>('SELECT name FROM firm')).rows[0]?.name ?? null;
  } finally {
    await client.end();
  }
}
