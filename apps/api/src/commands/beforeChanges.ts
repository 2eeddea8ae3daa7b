// A newer version changes the database: before it does, the firm goes into a backup, so that the way back is there.
import fs from 'node:fs';
import path from 'node:path';
import { backupPlace } from '@backsight/store/backup/archive';
import { changesAhead } from '@backsight/store/migrate';
import { makeBackup } from '@backsight/usecases/backup/makeBackup';
import type { Context } from './context.ts';

const NAME = 'before-changes';
/** So many are kept; older ones of this kind go. */
const KEPT = 5;

/** Nothing is changed when the backup cannot be made. */
export async function backupBeforeChanges({ config, root, version, say }: Context, url: string): Promise<void> {
  const ahead = await changesAhead(url, path.join(root, 'prisma/migrations'));
  if (ahead.length === 0) return;
  const passphrase = config.backupPassphrase ?? null;
  const file = backupPlace(config.dataDir, NAME, new Date(), passphrase);
  say(`this version changes the database (${ahead.length} changes); making a backup first: ${file}`);
  await makeBackup({ url, dataDir: config.dataDir, file, passphrase, version, clock: () => new Date(), say });
  const folder = path.dirname(file);
  const old = fs
    .readdirSync(folder)
    .filter((name) => name.startsWith(NAME))
    .sort()
    .slice(0, -KEPT);
  for (const name of old) fs.rmSync(path.join(folder, name));
}
