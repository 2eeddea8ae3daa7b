// Makes a new database cluster; a start that is killed half-way leaves none behind.
import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Binaries } from './binaries.ts';
import { alive } from './owner.ts';

/** The little that PostgreSQL may see of our environment: a host's language and zone would change sorting and times. */
export const serverEnvironment = (): NodeJS.ProcessEnv => ({
  PATH: process.env.PATH,
  HOME: os.tmpdir(),
  LC_ALL: 'C',
  TZ: 'UTC',
  SYSTEMROOT: process.env.SYSTEMROOT,
});

const INIT = [
  '-U',
  'postgres',
  '--auth=scram-sha-256',
  '--encoding=UTF8',
  '--locale-provider=builtin',
  '--builtin-locale=C.UTF-8',
  '--locale=C',
];

/** Runs initdb beside the wanted folder and renames it in place at the end. The password lands in `<cluster>.secret`. */
export async function createCluster(binaries: Binaries, cluster: string, volatile: boolean): Promise<void> {
  removeHalfMade(cluster);
  const temporary = `${cluster}.init-${process.pid}`;
  const passwordFile = `${temporary}.pw`;
  const password = randomBytes(24).toString('base64url');
  try {
    fs.mkdirSync(temporary, { mode: 0o700 });
    fs.writeFileSync(passwordFile, `${password}\n`, { mode: 0o600 });
    const { uid, gid } = binaries.ids;
    if (uid !== undefined && gid !== undefined) for (const f of [temporary, passwordFile]) fs.chownSync(f, uid, gid);
    await runToEnd(
      binaries.program('initdb'),
      ['-D', temporary, `--pwfile=${passwordFile}`, ...INIT, ...(volatile ? ['--no-sync'] : [])],
      binaries.ids,
    );
    fs.writeFileSync(`${cluster}.secret`, password, { mode: 0o600 });
    fs.renameSync(temporary, cluster);
  } finally {
    fs.rmSync(passwordFile, { force: true });
    fs.rmSync(temporary, { recursive: true, force: true });
  }
}

function removeHalfMade(cluster: string): void {
  const parent = path.dirname(cluster);
  for (const name of fs.readdirSync(parent)) {
    const left = name.startsWith(`${path.basename(cluster)}.init-`) ? /init-(\d+)/.exec(name) : null;
    if (left && !alive(Number(left[1]))) fs.rmSync(path.join(parent, name), { recursive: true, force: true });
  }
}

function runToEnd(program: string, args: string[], ids: object): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { stdio: ['ignore', 'pipe', 'pipe'], env: serverEnvironment(), ...ids });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => (said += chunk));
    child.on('error', reject);
    child.on('close', (code) =>
      code === 0 ? resolve() : reject(new Error(`${path.basename(program)} ended with ${code}: ${said.trim()}`)),
    );
  });
}
