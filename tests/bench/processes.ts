// What processes take of processor and memory, read from /proc (proc(5)).
import fs from 'node:fs';

/** Clock ticks a second, as Linux tells them to programs. */
const TICKS = 100;

const children = (pid: number): number[] =>
  fs.readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').split(' ').filter(Boolean).map(Number);

/** Of processes that end meanwhile there is nothing to read. */
const orNothing = (read: () => number): number => {
  try {
    return read();
  } catch {
    return 0;
  }
};

/** Processor ms of a process, of those that it started, and of those that they did. */
export const cpuOf = (pid: number): number =>
  orNothing(() => {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8');
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    const own = fields.slice(11, 15).reduce((sum, ticks) => sum + Number(ticks), 0);
    return (1_000 * own) / TICKS + children(pid).reduce((sum, child) => sum + cpuOf(child), 0);
  });

/** Bytes that a process holds in memory; `shared`: with those that it started, what several hold counted once. */
export function residentOf(pid: number, shared = false): number {
  const own = orNothing(() => {
    const file = shared ? 'smaps_rollup' : 'status';
    const kb = new RegExp(`^${shared ? 'Pss' : 'VmRSS'}:\\s+(\\d+) kB`, 'm').exec(fs.readFileSync(`/proc/${pid}/${file}`, 'utf8'))![1];
    return Number(kb) * 1_024;
  });
  return shared ? own + orNothing(() => children(pid).reduce((sum, child) => sum + residentOf(child, true), 0)) : own;
}
