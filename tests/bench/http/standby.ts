// A second server that follows the first and only answers reads, as `pg_basebackup` and streaming would make it
// (https://www.postgresql.org/docs/18/warm-standby.html); the built-in PostgreSQL has the server, but not that program.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { findBinaries, type Ids } from '@backsight/store/embedded/binaries';
import { freePort } from '../../support/program.ts';

/** Belongs to one server as it runs, or comes by streaming. */
const NOT_COPIED = /^(?:postmaster\.(?:pid|opts)|pg_wal\/.+|pg_replslot\/.+|pg_stat_tmp\/.+|pg_notify\/.+|pg_subtrans\/.+)$/;
const NAME = 'reading';
const PATIENCE_MS = 60_000;

export type Standby = { url: string; stop: () => Promise<void> };

/** Copies the server at `url` into `folder` while it runs, starts the copy and answers once it has caught up. `url` is a superuser's. */
export async function standbyOf(url: string, folder: string, from: string): Promise<Standby> {
  const first = new pg.Client({ connectionString: url });
  await first.connect();
  await copied(first, folder);
  const binaries = findBinaries(from);
  ownedBy(folder, binaries.ids);
  const [at, port] = [new URL(url), await freePort()];
  const follows = `host=${at.hostname} port=${at.port} user=${at.username} password=${at.password} application_name=${NAME}`;
  const settings = {
    listen_addresses: '127.0.0.1',
    unix_socket_directories: '',
    port: String(port),
    max_connections: '80',
    shared_buffers: '64MB',
    timezone: 'UTC',
    primary_conninfo: follows,
  };
  const args = Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`]);
  const child = spawn(binaries.program('postgres'), ['-D', folder, ...args], { ...binaries.ids, stdio: 'ignore' });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const stop = async (): Promise<void> => {
    child.kill('SIGINT');
    await ended;
  };
  const began = performance.now();
  while (!(await caughtUp(first))) {
    if (performance.now() - began > PATIENCE_MS) throw new Error('the second server did not catch up');
    await sleep(100);
  }
  await first.end();
  at.port = String(port);
  return { url: at.href, stop };
}

async function copied(first: pg.Client, folder: string): Promise<void> {
  const { rows } = await first.query<{ data_directory: string }>('SHOW data_directory');
  const source = rows[0]!.data_directory;
  await first.query(`SELECT pg_backup_start('${NAME}', true)`);
  fs.cpSync(source, folder, { recursive: true, filter: (file) => !NOT_COPIED.test(path.relative(source, file)) });
  const stopped = await first.query<{ labelfile: string }>('SELECT labelfile FROM pg_backup_stop(false)');
  fs.writeFileSync(path.join(folder, 'backup_label'), stopped.rows[0]!.labelfile);
  fs.writeFileSync(path.join(folder, 'standby.signal'), '');
}

function ownedBy(folder: string, { uid, gid }: Ids): void {
  fs.chmodSync(folder, 0o700);
  if (uid === undefined || gid === undefined) return;
  fs.chownSync(folder, uid, gid);
  for (const name of fs.readdirSync(folder, { recursive: true, encoding: 'utf8' })) fs.chownSync(path.join(folder, name), uid, gid);
}

async function caughtUp(first: pg.Client): Promise<boolean> {
  const sql = `SELECT replay_lsn >= pg_current_wal_lsn() AS there FROM pg_stat_replication WHERE application_name = '${NAME}'`;
  return (await first.query<{ there: boolean }>(sql)).rows[0]?.there === true;
}
