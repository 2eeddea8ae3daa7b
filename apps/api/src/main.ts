// The commands of the service: serve (and more to come), each one function.
import fs from 'node:fs';
import path from 'node:path';
import { BadBackup } from '@backsight/store/backup/archive';
import { CannotUpgrade } from '@backsight/store/migrate';
import { NotHandedOn } from '@backsight/store/told';
import { readConfig, WrongSetting } from './config.ts';
import { AlreadyRunning } from '@backsight/store/embedded/owner';
import { serve } from './commands/serve.ts';
import { migrateOnly } from './commands/migrate.ts';
import { backup } from './commands/backup.ts';
import { newKey } from './commands/newKey.ts';
import { secondFactorOff } from './commands/secondFactorOff.ts';
import { restore } from './commands/restore.ts';
import { DoesNotHold, verifyAll } from './commands/verify.ts';

const KNOWN = [WrongSetting, AlreadyRunning, BadBackup, CannotUpgrade, NotHandedOn, DoesNotHold];

/** Runs one command. Answers when it is done; `serve` answers once it listens, not before `webApp` is settled. */
export async function main(command: string, root: string, words: readonly string[] = [], webApp?: Promise<unknown>): Promise<void> {
  try {
    const config = readConfig(process.env, root);
    const version = (JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8')) as { version: string }).version;
    const context = { config, root, version, say: (line: string) => console.log(line), ...(webApp ? { webApp } : {}) };
    if (command === 'serve') await serve(context);
    else if (command === 'migrate') await migrateOnly(context);
    else if (command === 'backup') await backup(context, words);
    else if (command === 'restore') await restore(context, words);
    else if (command === 'second-factor-off') await secondFactorOff(context, words);
    else if (command === 'new-key') await newKey(context);
    else if (command === 'verify') await verifyAll(context);
    else
      throw new WrongSetting(
        `There is no command "${command}". Commands: serve, backup, restore, verify, second-factor-off, new-key, migrate.`,
      );
  } catch (error) {
    const known = KNOWN.some((kind) => error instanceof kind) || (error as NodeJS.ErrnoException).code === 'EADDRINUSE';
    console.error(known ? (error as Error).message : error);
    process.exitCode = 1;
    process.exit(1);
  }
}
