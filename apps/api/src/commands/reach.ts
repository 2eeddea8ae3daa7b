// How a command of the keyboard reaches the firm's database: a server of one's own, the built-in one that runs, or the built-in one started for it.
import path from 'node:path';
import pg from 'pg';
import { runningServer } from '@backsight/store/embedded/running';
import { startEmbedded } from '@backsight/store/embedded/server';
import { WrongSetting } from '../config.ts';
import type { Context } from './context.ts';

/** Beside a service that goes on with its work. */
export async function beside<T>(context: Context, work: (url: string) => Promise<T>): Promise<T> {
  const { databaseUrl, dataDir } = context.config;
  const url = databaseUrl ?? runningServer(dataDir, 'postgres');
  return url === null ? await started(context, work) : await work(url);
}

/** @throws AlreadyRunning, or WrongSetting, while a service uses the database */
export async function alone<T>(context: Context, work: (url: string) => Promise<T>): Promise<T> {
  const { databaseUrl } = context.config;
  if (databaseUrl === undefined) return await started(context, work);
  const connected = await servicesOn(databaseUrl);
  if (connected > 0) throw new WrongSetting('A service still works with this database. Stop every one of them first.');
  return await work(databaseUrl);
}

async function started<T>({ config, root, say }: Context, work: (url: string) => Promise<T>): Promise<T> {
  const server = await startEmbedded({ dataDir: config.dataDir, from: path.join(root, 'packages/store/package.json'), log: say });
  try {
    return await work(server.url('postgres'));
  } finally {
    await server.stop();
  }
}

async function servicesOn(url: string): Promise<number> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    const { rows } = await client.query<{ n: number }>(
      `SELECT count(*)::int AS n FROM pg_stat_activity WHERE datname = current_database() AND application_name = 'backsight' AND pid <> pg_backend_pid()`,
    );
    return rows[0]!.n;
  } finally {
    await client.end();
  }
}
