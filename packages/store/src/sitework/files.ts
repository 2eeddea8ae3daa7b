// Keeps a file under its fingerprint: written beside its place, forced to disk, then renamed, so that half a file is never found there.
import { createHash, randomBytes } from 'node:crypto';
import fs from 'node:fs/promises';
import path from 'node:path';

/**
 * Stores the bytes in `directory`/files/<sha256>, readable by the service alone, and answers the fingerprint. The same content is stored once.
 * Where there is no room it throws (ENOSPC and the like) and leaves nothing behind.
 */
export async function storeFile(directory: string, bytes: Buffer): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const folder = path.join(directory, 'files');
  await fs.mkdir(folder, { recursive: true, mode: 0o700 });
  const place = path.join(folder, sha256);
  // A file that is there becomes young again, so that nobody takes it for one that no row will name (`unnamedFiles.ts`).
  const now = new Date();
  const there = await fs.utimes(place, now, now).then(
    () => true,
    () => false,
  );
  if (!there) await writeWhole(place, bytes);
  return sha256;
}

const PART = /\.[0-9a-f]{12}\.part$/;

/** Writes a file that is there whole or not at all. Its folder is forced to disk as well, so that its name is there after a power cut. */
export async function writeWhole(place: string, bytes: Buffer): Promise<void> {
  const temporary = `${place}.${randomBytes(6).toString('hex')}.part`;
  try {
    const file = await fs.open(temporary, 'w', 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await fs.rename(temporary, place);
  } catch (error) {
    await fs.rm(temporary, { force: true }).catch(() => {});
    throw error;
  }
  await syncFolder(path.dirname(place));
}

/** Windows opens no folders; there the name is written with the file. */
async function syncFolder(folder: string): Promise<void> {
  const opened = await fs.open(folder, 'r').catch(() => null);
  try {
    await opened?.sync();
  } catch {
    // a file system that cannot do it has its own way
  } finally {
    await opened?.close();
  }
}

const OLD_MS = 3_600_000;

/** Removes what a service that was killed while it wrote left behind, once nobody can be writing it any more; answers how many. */
export async function clearHalfWritten(directory: string, now: Date): Promise<number> {
  let many = 0;
  for (const folder of ['files', 'mail']) {
    const names = await fs.readdir(path.join(directory, folder)).catch(() => []);
    for (const name of names.filter((one) => PART.test(one))) {
      const place = path.join(directory, folder, name);
      const { mtimeMs } = await fs.stat(place).catch(() => ({ mtimeMs: Infinity }));
      if (now.getTime() - mtimeMs < OLD_MS) continue;
      await fs.rm(place, { force: true });
      many += 1;
    }
  }
  return many;
}

/** The bytes of a stored file. Throws where the file does not fit its fingerprint any more. */
export async function readStoredFile(directory: string, sha256: string): Promise<Buffer> {
  const bytes = await fs.readFile(path.join(directory, 'files', sha256));
  if (createHash('sha256').update(bytes).digest('hex') !== sha256) throw new Error('a stored file was changed');
  return bytes;
}

/** Takes the bytes from the disk; false where they were gone already. */
export const removeStoredFile = (directory: string, sha256: string): Promise<boolean> =>
  fs.unlink(path.join(directory, 'files', sha256)).then(
    () => true,
    (error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return false;
      throw error;
    },
  );
