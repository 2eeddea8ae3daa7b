// A disk of a few megabytes that only the test and what it starts can see: a tmpfs in a mount namespace of its own, gone with its holder.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';

export type SmallDisk = {
  /** Words before a command that runs it where the disk is. */
  enter: readonly string[];
  /** The same folder, as the test sees it. */
  seen: string;
  /** Leaves no byte free. */
  fill: () => void;
  free: () => void;
  close: () => void;
};

const BALLAST = 'ballast';

/** Puts a disk over `folder`; null where this user may not (it takes Linux, and root or user namespaces). */
export async function smallDisk(folder: string, megabytes: number): Promise<SmallDisk | null> {
  if (process.platform !== 'linux') return null;
  const mine = process.getuid?.() === 0 ? [] : ['--user', '--map-root-user'];
  const script = `mount -t tmpfs -o size=${megabytes}m,mode=755 tmpfs "$1" && echo there && exec sleep 600`;
  const holder = spawn('unshare', [...mine, '--mount', 'sh', '-c', script, 'sh', folder], { stdio: ['ignore', 'pipe', 'ignore'] });
  const there = await new Promise<boolean>((resolve) => {
    holder.stdout.once('data', () => resolve(true));
    holder.once('error', () => resolve(false)).once('exit', () => resolve(false));
  });
  if (!there) return null;
  const seen = `/proc/${holder.pid}/root${folder}`;
  const ballast = path.join(seen, BALLAST);
  return {
    enter: ['nsenter', ...(mine.length > 0 ? ['--user', '--preserve-credentials'] : []), '--mount', '--target', String(holder.pid)],
    seen,
    fill: () => {
      const file = fs.openSync(ballast, 'a');
      for (let size = 65_536; size > 0;)
        try {
          fs.writeSync(file, Buffer.alloc(size));
        } catch {
          size = size > 1 ? size / 2 : 0;
        }
      fs.closeSync(file);
    },
    free: () => fs.rmSync(ballast, { force: true }),
    close: () => void holder.kill('SIGKILL'),
  };
}
