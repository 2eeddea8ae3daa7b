// Keeps a file under its fingerprint: written beside its place, forced to disk, then renamed, so that half a file is never found there.
import { createHash, randomBytes } from 'node:crypto';
import fs from 'node:fs/promises';
import path from 'node:path';

/** Stores the bytes in `directory`/files/<sha256>, readable by the service alone, and answers the fingerprint. The same content is stored once. */
export async function storeFile(directory: string, bytes: Buffer): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const folder = path.join(directory, 'files');
  const place = path.join(folder, sha256);
  await fs.mkdir(folder, { recursive: true, mode: 0o700 });
  if (
    await fs.access(place).then(
      () => true,
      () => false,
    )
  )
    return sha256;
  const temporary = `${place}.${randomBytes(6).toString('hex')}.part`;
  const file = await fs.open(temporary, 'w', 0o600);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
  await fs.rename(temporary, place);
  return sha256;
}

/** The bytes of a stored file. Throws where the file does not fit its fingerprint any more. */
export async function readStoredFile(directory: string, sha256: string): Promise<Buffer> {
  const bytes = await fs.readFile(path.join(directory, 'files', sha256));
  if (createHash('sha256').update(bytes).digest('hex') !== sha256) throw new Error('a stored file was changed');
  return bytes;
}
