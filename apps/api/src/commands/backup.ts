// backup [FILE]: the firm in one file, while the service goes on.
import path from 'node:path';
import { backupPlace } from '@backsight/store/backup/archive';
import { makeBackup } from '@backsight/usecases/backup/makeBackup';
import { beside } from './reach.ts';
import type { Context } from './context.ts';

export async function backup(context: Context, [given]: readonly string[]): Promise<void> {
  const { config, version, say } = context;
  const passphrase = config.backupPassphrase ?? null;
  const file = given ? path.resolve(given) : backupPlace(config.dataDir, 'backsight', new Date(), passphrase);
  await beside(context, async (url) => {
    say(`making a backup${passphrase === null ? '' : ', encrypted'}`);
    await makeBackup({ url, dataDir: config.dataDir, file, passphrase, version, clock: () => new Date(), say });
  });
  say(
    `${file}\nKeep it on another machine${passphrase === null ? '; it holds personal data in the clear' : ', and its passphrase elsewhere: without it nobody opens it'}.`,
  );
}
