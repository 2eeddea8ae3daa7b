// Runs the real program in a process of its own, as `npm start` does, over a data folder of its own.
import { spawn, type ChildProcess } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const root = path.resolve(import.meta.dirname, '../..');

export const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = net.createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as net.AddressInfo;
      server.close(() => resolve(port));
    });
  });

/** A data folder that an unprivileged database user can reach; the test removes it. */
export function dataFolder(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-program-'));
  fs.chmodSync(folder, 0o755);
  return folder;
}

export type Program = {
  process: ChildProcess;
  said: () => string;
  ready: Promise<void>;
  ended: Promise<number | null>;
  stop: () => Promise<void>;
};

/** What `start.mjs` ends with, for an installation that lies elsewhere. */
const MAIN = `import { main } from '${pathToFileURL(path.join(root, 'apps/api/dist/main.js')).href}'; await main(process.argv[2] ?? 'serve', process.argv[1], process.argv.slice(3));`;

type Way = { script?: string; enter?: readonly string[] };

/**
 * Starts the program, or the command that `words` name; `ready` settles when it says that it is ready, and rejects when it ends before.
 * `installation`: another folder whose files it takes. `container.mjs` runs what is built and looks at nothing else; `enter` are words before
 * the command, the program that runs it.
 */
export function startProgram(env: Record<string, string>, words: readonly string[] = [], installation?: string, way: Way = {}): Program {
  const script =
    installation === undefined
      ? [path.join(root, 'apps/api/scripts', way.script ?? 'start.mjs')]
      : ['--input-type=module', '-e', MAIN, installation];
  const [command, ...rest] = [...(way.enter ?? []), process.execPath, ...script, ...words];
  const child = spawn(command!, rest, {
    cwd: root,
    env: { ...process.env, NODE_ENV: '', VITEST: '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => (text += chunk));
  const ended = new Promise<number | null>((resolve) => child.on('exit', (code) => resolve(code)));
  const ready = new Promise<void>((resolve, reject) => {
    child.stdout?.on('data', () => text.includes('Backsight is ready') && resolve());
    void ended.then(() => reject(new Error(`ended before it was ready: ${text}`)));
  });
  ready.catch(() => {});
  const stop = async () => {
    child.kill('SIGTERM');
    await ended;
  };
  return { process: child, said: () => text, ready, ended, stop };
}
