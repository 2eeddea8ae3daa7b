// The built-in server while another process serves with it: how a command of the keyboard reaches it.
import fs from 'node:fs';
import path from 'node:path';
import { knownCluster } from './location.ts';

/** The address of a database of the server that runs on this data folder, or null when none runs. */
export function runningServer(dataDir: string, database: string): string | null {
  const cluster = knownCluster(dataDir);
  if (cluster === null) return null;
  try {
    // PostgreSQL's own note: process, folder, start, port, ... , state (PostgreSQL manual, "Database File Layout").
    const [pid, , , port, , , , state] = fs.readFileSync(path.join(cluster, 'postmaster.pid'), 'utf8').split('\n');
    process.kill(Number(pid), 0);
    if (state?.trim() !== 'ready') return null;
    return `postgresql://postgres:${fs.readFileSync(`${cluster}.secret`, 'utf8').trim()}@127.0.0.1:${Number(port)}/${database}`;
  } catch {
    return null;
  }
}
