// Makes a backup while the service goes on: the database as of one instant and the files that it speaks of, read back once it is written.
import type { Manifest } from '@backsight/domain/backup/stored';
import { checkArchive, writeArchive } from '@backsight/store/backup/archive';
import { dump } from '@backsight/store/backup/dump';
import { keptSecretKey } from '@backsight/store/secretKey';
import { readStoredFile } from '@backsight/store/sitework/files';

export type BackupAsk = {
  /** The database as the owner of its tables. */ url: string;
  /** The folder of the service's files. */ dataDir: string;
  /** Where the backup goes. */ file: string;
  /** Encrypts it. */ passphrase: string | null;
  /** Of the program. */ version: string;
  clock: () => Date;
  /** Hears how far it is. */ say: (line: string) => void;
};

/** @throws Error when it cannot be written, or does not read back; then no file is left in its place */
export async function makeBackup({ url, dataDir, file, passphrase, version, clock, say }: BackupAsk): Promise<Manifest> {
  const madeAt = clock().toISOString();
  let rows = 0;
  const made = await writeArchive(file, passphrase, async (add) => {
    const { files, ...dumped } = await dump(url, add, (table, n) => {
      rows += n;
      if (n >= 10_000) say(`  ${table}: ${n.toLocaleString('en-US')} rows`);
    });
    const filesMissing: string[] = [];
    for (const [at, sha256] of files.entries()) {
      // A file lies in its place before the row that speaks of it is there, so that what this instant names is never missing by haste.
      const bytes = await readStoredFile(dataDir, sha256).catch(() => null);
      if (bytes === null) filesMissing.push(sha256);
      else await add(`files/${sha256}`, bytes);
      if (at % 500 === 499) say(`  ${at + 1} of ${files.length} files`);
    }
    const key = passphrase === null ? null : keptSecretKey(dataDir); // in the clear it would open what it encrypts
    if (key) await add('secret.key', key);
    return { ...dumped, madeAt, version, filesMissing };
  });
  await checkArchive(file, passphrase);
  say(
    `  ${made.tables.length} tables, ${rows.toLocaleString('en-US')} rows, ${made.entries.filter(({ name }) => name.startsWith('files/')).length} files; read back, and whole`,
  );
  if (made.filesMissing.length > 0) say(`  ${made.filesMissing.length} files that the records name are missing or changed: run "verify"`);
  return made;
}
