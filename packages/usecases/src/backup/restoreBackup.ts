// Puts a backup in the place of what is there: rows and files, then the changes that came since, then proof that all of it holds.
import type { Manifest } from '@backsight/domain/backup/stored';
import { readArchive } from '@backsight/store/backup/archive';
import { load } from '@backsight/store/backup/load';
import { settle } from '@backsight/store/backup/settle';
import { openDatabase } from '@backsight/store/database';
import { migrate, readMigrations } from '@backsight/store/migrate';
import { bringSecretKey } from '@backsight/store/secretKey';
import { storeFile } from '@backsight/store/sitework/files';
import { verify, type Finding } from './verify.ts';

export type RestoreAsk = {
  /** The database as the owner of its tables; what it holds goes. */ url: string;
  dataDir: string;
  file: string;
  passphrase: string | null;
  /** What the file says, which was held against it. */ manifest: Manifest;
  /** Folder of this program's changes of the database. */ migrations: string;
  clock: () => Date;
  say: (line: string) => void;
};

/**
 * All rows or none: when this fails, the database is as it was. Afterwards nobody is signed in, and mail that waited when the backup was
 * made is not sent by itself, for it may have been sent since.
 * @throws BadBackup, or Error when a row breaks a rule
 */
export async function restoreBackup({ url, dataDir, file, passphrase, manifest, migrations, clock, say }: RestoreAsk): Promise<Finding[]> {
  say('storing the files');
  let key: Buffer | null = null;
  for await (const { name, bytes } of readArchive(file, passphrase)) {
    if (name.startsWith('files/')) await storeFile(dataDir, bytes);
    else if (name === 'secret.key') key = bytes;
  }
  say('loading the rows');
  const rows = new Map(manifest.tables.map(({ name, rows: many }) => [name, many]));
  const told = (entry: string) => {
    const [, table, part] = entry.split('/');
    if (part === '000001.copy' && rows.get(table!)! >= 10_000) say(`  ${table}: ${rows.get(table!)!.toLocaleString('en-US')} rows`);
  };
  await load({ url, manifest, migrations: readMigrations(migrations), entries: readArchive(file, passphrase), told });
  if (key) bringSecretKey(dataDir, key);
  else
    say(
      'it holds no key (encrypted backups do): if it was made on another installation, second factors are set up anew, by recovery codes',
    );
  const since = await migrate(url, migrations);
  if (since.length > 0) say(`brought up to this version (${since.length} changes)`);
  const { mails } = await settle(url, manifest.madeAt, clock());
  if (mails > 0) say(`${mails} mails waited when the backup was made; they are not sent by themselves: see "Mail" once the service runs`);
  const database = await openDatabase(url, { size: 2 });
  try {
    return await verify({ reader: database.read, dataDir, say });
  } finally {
    await database.close();
  }
}
