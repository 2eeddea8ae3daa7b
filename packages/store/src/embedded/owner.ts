// One process per data folder: a lock file that survives a crash without blocking the next start.
import fs from 'node:fs';

/** Is a process with that number alive? */
export function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** A process number is used again after a while; the start time tells the two apart (Linux only, else ''). */
function startTime(pid: number): string {
  try {
    return fs.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ')[19] ?? '';
  } catch {
    return '';
  }
}

export class AlreadyRunning extends Error {}

/**
 * Takes the folder for this process and returns the release.
 * @throws AlreadyRunning when another living process holds it.
 */
export function takeOwnership(file: string): () => void {
  const mine = `${process.pid} ${startTime(process.pid)}`;
  for (let tries = 0; tries < 5; tries++) {
    try {
      fs.writeFileSync(file, mine, { flag: 'wx' });
      return () => fs.rmSync(file, { force: true });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
    const [pid, at] = readOwner(file);
    if (pid !== process.pid && alive(pid) && startTime(pid) === at)
      throw new AlreadyRunning(`Backsight is already running here (process ${pid}).`);
    fs.rmSync(file, { force: true });
  }
  throw new Error(`The lock file ${file} cannot be taken.`);
}

function readOwner(file: string): [number, string] {
  try {
    const [pid, at] = fs.readFileSync(file, 'utf8').split(' ');
    return [Number(pid) || -1, at ?? ''];
  } catch {
    return [-1, ''];
  }
}
