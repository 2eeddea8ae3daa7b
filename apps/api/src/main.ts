// The commands of the service, each one function, loaded when it is wanted.
import fs from 'node:fs';
import path from 'node:path';
import v8 from 'node:v8';
import { BadBackup } from '@backsight/store/backup/archive';
import { AlreadyRunning } from '@backsight/store/embedded/owner';
import { CannotUpgrade } from '@backsight/store/migrate';
import { NotHandedOn } from '@backsight/store/told';
import { readConfig, WrongSetting } from './config.ts';
import type { Context } from './commands/context.ts';
import { demoFirm } from './commands/demoFirm.ts';
import { DoesNotHold } from './commands/doesNotHold.ts';
import { portIsFree } from './commands/portIsFree.ts';
import { stopWithProcess } from './commands/stopWithProcess.ts';

/** The heap grows by so many percent before it is looked through: left to itself it grew to three times what is used under a long load. */
const HEAP_GROWS_PERCENT = 60;
v8.setFlagsFromString(`--heap-growing-percent=${HEAP_GROWS_PERCENT}`);

const KNOWN = [WrongSetting, AlreadyRunning, BadBackup, CannotUpgrade, NotHandedOn, DoesNotHold];

const COMMANDS: Record<string, (context: Context, words: readonly string[]) => Promise<unknown>> = {
  serve: served,
  backup: async (context, words) => (await import('./commands/backup.ts')).backup(context, words),
  restore: async (context, words) => (await import('./commands/restore.ts')).restore(context, words),
  verify: async (context) => (await import('./commands/verify.ts')).verifyAll(context),
  'second-factor-off': async (context, words) => (await import('./commands/secondFactorOff.ts')).secondFactorOff(context, words),
  'new-key': async (context) => (await import('./commands/newKey.ts')).newKey(context),
  migrate: async (context) => (await import('./commands/migrate.ts')).migrateOnly(context),
};

/** Runs one command. Answers when it is done; `serve` answers once it listens, not before `webApp` is settled. */
export async function main(command: string, root: string, words: readonly string[] = [], webApp?: Promise<unknown>): Promise<void> {
  try {
    const config = readConfig(process.env, root);
    const version = (JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8')) as { version: string }).version;
    const context = { config, root, version, say: (line: string) => console.log(line), ...(webApp ? { webApp } : {}) };
    const run = Object.hasOwn(COMMANDS, command) ? COMMANDS[command] : undefined;
    if (!run) throw new WrongSetting(`There is no command "${command}". Commands: ${Object.keys(COMMANDS).join(', ')}.`);
    await run(context, words);
  } catch (error) {
    const known = KNOWN.some((kind) => error instanceof kind) || (error as NodeJS.ErrnoException).code === 'EADDRINUSE';
    console.error(known ? (error as Error).message : error);
    process.exitCode = 1;
    process.exit(1);
  }
}

/** Most of the program is loaded while the demo firm is made already, which takes the longest. */
async function served(context: Context): Promise<void> {
  await portIsFree(context.config);
  const demo = demoFirm(context);
  let end = demo.end;
  stopWithProcess(() => end(), context.config.drainSeconds, context.say);
  demo.begin();
  const { serve } = await import('./commands/serve.ts');
  await serve(context, demo, (all) => void (end = all));
}
