// What a database server that was killed hard leaves behind, on Linux: helpers that end a moment later, and, where nobody
// collects dead processes (containers without an init), a process number that still seems alive and blocks the next start.
import fs from 'node:fs';
import path from 'node:path';

const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

const readProc = (pid: number | string, name: string): string => {
  try {
    return fs.readFileSync(`/proc/${pid}/${name}`, 'utf8');
  } catch {
    return '';
  }
};

/** Is that process a database server on that folder, and not another one that got its number? */
export function servesCluster(pid: number, cluster: string): boolean {
  return process.platform !== 'linux' || readProc(pid, 'cmdline').split('\0').includes(cluster);
}

/** Every process of a server works inside its data folder. */
function someoneWorksIn(folder: string): boolean {
  return fs.readdirSync('/proc').some((pid) => {
    if (!/^\d+$/.test(pid)) return false;
    try {
      return fs.readlinkSync(`/proc/${pid}/cwd`) === folder;
    } catch {
      return false;
    }
  });
}

/**
 * Waits for the helpers of a dead server to end, then removes its note when only an uncollected process stands behind it.
 * A note whose process is really gone is left to PostgreSQL, which recovers by itself.
 */
export async function clearDeadServer(cluster: string, pid: number): Promise<void> {
  if (process.platform !== 'linux') return;
  const real = fs.realpathSync(cluster);
  for (let i = 0; i < 200 && someoneWorksIn(real); i++) await sleep(50);
  const uncollected = / Z /.test(readProc(pid, 'stat').replace(/\(.*\)/, ''));
  if (uncollected && !someoneWorksIn(real)) fs.rmSync(path.join(cluster, 'postmaster.pid'), { force: true });
}
