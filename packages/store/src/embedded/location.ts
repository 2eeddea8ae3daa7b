// Where the built-in server keeps the firm's data, written down in DATA_DIR so that it is never lost or made anew silently.
import { spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import type { Ids } from './binaries.ts';

const NOTE = 'database.json';

/**
 * The cluster's folder for a data folder, and whether it must still be made.
 * @throws Error when DATA_DIR says that a firm's data exists which is not there: an empty firm is never made in its place.
 */
export function locateCluster(dataDir: string, major: string, ids: Ids): { cluster: string; fresh: boolean } {
  fs.mkdirSync(dataDir, { recursive: true });
  const note = path.join(dataDir, NOTE);
  if (fs.existsSync(note)) {
    const known = JSON.parse(fs.readFileSync(note, 'utf8')) as { cluster: string; major: string };
    const cluster = path.resolve(dataDir, known.cluster);
    if (!fs.existsSync(path.join(cluster, 'PG_VERSION'))) {
      throw new Error(
        `The firm's database was kept in ${cluster}, and is not there. Bring that folder back, or move ${dataDir} away to begin anew.`,
      );
    }
    if (known.major !== major)
      throw new Error(
        `The database in ${cluster} was made by PostgreSQL ${known.major}; this version brings ${major}. Make a backup with the old version and restore it with this one.`,
      );
    return { cluster, fresh: false };
  }
  const others = fs.readdirSync(dataDir).filter((name) => name === 'files' || name === 'mail' || /^pg\d+$/.test(name));
  if (others.length > 0) {
    throw new Error(
      `${dataDir} holds a firm's ${others.join(' and ')} but not ${NOTE}, which says where its database is. Nothing was created.`,
    );
  }
  return { cluster: reachable(path.join(dataDir, `pg${major}`), ids), fresh: true };
}

/** The cluster's folder as it is written down, or null when this data folder has none. */
export function knownCluster(dataDir: string): string | null {
  const note = path.join(dataDir, NOTE);
  if (!fs.existsSync(note)) return null;
  return path.resolve(dataDir, (JSON.parse(fs.readFileSync(note, 'utf8')) as { cluster: string }).cluster);
}

/** Writes down where the cluster is, once it exists. A folder inside DATA_DIR is noted relative, so that it can be moved. */
export function noteCluster(dataDir: string, cluster: string, major: string): void {
  const inside = path.relative(dataDir, cluster);
  const text = JSON.stringify({ cluster: inside.startsWith('..') ? cluster : inside, major });
  fs.writeFileSync(path.join(dataDir, NOTE), `${text}\n`);
}

/** As root the data must lie where the unprivileged user can go; a folder below /root is no such place. */
function reachable(folder: string, ids: Ids): string {
  if (ids.uid === undefined) return folder;
  const parent = path.dirname(folder);
  if (spawnSync('/bin/sh', ['-c', 'cd "$0"', parent], ids).status === 0) return folder;
  const other = path.join('/var/lib', `backsight-${randomBytes(6).toString('hex')}`);
  fs.mkdirSync(other, { recursive: true, mode: 0o755 });
  return path.join(other, path.basename(folder));
}
