// Files that no row names: of an act that was taken back after its file was written, or that lost a race.
import fs from 'node:fs/promises';
import path from 'node:path';
import type { Reader } from '../database.ts';

const WEEK_MS = 7 * 86_400_000;
const NAME = /^[0-9a-f]{64}$/;
const TAKEN = '.taken.000000000000.part';

/**
 * Removes files that were written or asked for more than a week ago and that no row names; answers how many. Whoever stores the same bytes
 * meanwhile makes the file young again (`storeFile`), so it is moved aside, looked at once more, and put back where that happened.
 */
export async function removeUnnamedFiles(reader: Reader, directory: string, now: Date): Promise<number> {
  const folder = path.join(directory, 'files');
  const old: string[] = [];
  for (const name of await fs.readdir(folder).catch(() => []))
    if (NAME.test(name) && (await isOld(path.join(folder, name), now))) old.push(name);
  const named = await reader.rows<{ sha256: string }>(
    'SELECT sha256 FROM stored_file WHERE erased_at IS NULL AND sha256 = ANY($1::text[])',
    [old],
  );
  const kept = new Set(named.map(({ sha256 }) => sha256));
  let many = 0;
  for (const name of old.filter((one) => !kept.has(one))) {
    const place = path.join(folder, name);
    await fs.rename(place, `${place}${TAKEN}`);
    if (await isOld(`${place}${TAKEN}`, now)) {
      await fs.rm(`${place}${TAKEN}`, { force: true });
      many += 1;
    } else await fs.rename(`${place}${TAKEN}`, place);
  }
  return many;
}

async function isOld(place: string, now: Date): Promise<boolean> {
  const { mtimeMs } = await fs.stat(place).catch(() => ({ mtimeMs: Infinity }));
  return now.getTime() - mtimeMs > WEEK_MS;
}
