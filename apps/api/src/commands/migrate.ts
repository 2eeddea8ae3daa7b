// migrate: brings the database to this version, after a backup of it, and ends.
import path from 'node:path';
import { migrate } from '@backsight/store/migrate';
import { WrongSetting } from '../config.ts';
import { backupBeforeChanges } from './beforeChanges.ts';
import type { Context } from './context.ts';

export async function migrateOnly(context: Context): Promise<void> {
  const { config, root, say } = context;
  if (!config.databaseUrl)
    throw new WrongSetting(
      'DATABASE_URL: the built-in database is brought up to date by every start; this command is for a server of your own.',
    );
  await backupBeforeChanges(context, config.databaseUrl);
  const applied = await migrate(config.databaseUrl, path.join(root, 'prisma/migrations'));
  say(applied.length === 0 ? 'The database is up to date.' : `Applied: ${applied.join(', ')}`);
}
