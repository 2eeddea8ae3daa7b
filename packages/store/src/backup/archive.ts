// The file of a backup: a tar archive (POSIX ustar) under gzip, encrypted on request, with the manifest as its last entry.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { PassThrough, Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import zlib from 'node:zlib';
import { extract, pack, type Pack } from 'tar-stream';
import { manifestSchema, type Manifest } from '@backsight/domain/backup/stored';
import { isEncrypted, opened, sealer } from './cipher.ts';

const MANIFEST = 'manifest.json';

/** A backup that cannot be used, said to whoever wants to use it. */
export class BadBackup extends Error {}

/** Where a backup goes unless somebody says so: `backups` in the data folder, by the instant in UTC. */
export const backupPlace = (dataDir: string, what: string, now: Date, passphrase: string | null): string =>
  path.join(
    dataDir,
    'backups',
    `${what}-${now.toISOString().slice(0, 19).replaceAll(':', '')}Z.${passphrase === null ? 'tar.gz' : 'encrypted'}`,
  );

export type Entry = { name: string; bytes: Buffer };
/** Adds one entry; settled once it is on its way. */
export type Add = (name: string, bytes: Uint8Array) => Promise<void>;
type Contents = Omit<Manifest, 'backup' | 'entries'>;

/** Writes a backup beside its place and renames it when it is whole and on disk; nothing is left of one that breaks off. Readable by its owner alone. */
export async function writeArchive(file: string, passphrase: string | null, fill: (add: Add) => Promise<Contents>): Promise<Manifest> {
  const making = `${file}.${process.pid}.part`;
  fs.mkdirSync(path.dirname(file), { recursive: true, mode: 0o700 });
  try {
    const manifest = await write(making, passphrase, fill);
    const written = fs.openSync(making, 'r+');
    fs.fsyncSync(written);
    fs.closeSync(written);
    fs.renameSync(making, file);
    return manifest;
  } finally {
    fs.rmSync(making, { force: true });
  }
}

async function write(file: string, passphrase: string | null, fill: (add: Add) => Promise<Contents>): Promise<Manifest> {
  const seal = passphrase === null ? null : await sealer(passphrase);
  const tar = pack();
  const to = fs.createWriteStream(file, { mode: 0o600 });
  if (seal) to.write(seal.head);
  // Its streams are those of another library, which Node takes as any readable stream.
  const written = pipeline(Readable.from(tar), zlib.createGzip(), seal?.through ?? new PassThrough(), to, { end: seal === null });
  const failed = written.then(() => new Promise<never>(() => {})); // waits for ever, unless the disk says no
  const filled = fillTar(tar, fill);
  const manifest = await Promise.race([filled, failed]);
  await written;
  if (seal) await new Promise<void>((resolve, reject) => to.once('error', reject).end(seal.tail(), resolve));
  return manifest;
}

async function fillTar(tar: Pack, fill: (add: Add) => Promise<Contents>): Promise<Manifest> {
  const entries: Manifest['entries'] = [];
  const put = (name: string, bytes: Uint8Array) =>
    new Promise<void>((resolve, reject) => {
      const settled = (error?: Error | null) => (error ? reject(error) : resolve());
      tar.entry({ name, size: bytes.length, mode: 0o600 }, settled).end(bytes);
    });
  const contents = await fill(async (name, bytes) => {
    entries.push({ name, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') });
    await put(name, bytes);
  });
  const manifest: Manifest = { backup: 1, ...contents, entries };
  await put(MANIFEST, Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`));
  tar.finalize();
  return manifest;
}

/** Every entry but the manifest, in order. @throws BadBackup when it cannot be read */
export async function* readArchive(file: string, passphrase: string | null): AsyncGenerator<Entry> {
  for await (const entry of everyEntry(file, passphrase)) if (entry.name !== MANIFEST) yield entry;
}

/** Reads all of it and holds each entry against the manifest. @throws BadBackup saying what is wrong */
export async function checkArchive(file: string, passphrase: string | null): Promise<Manifest> {
  const found: Manifest['entries'] = [];
  let last: Entry | null = null;
  for await (const { name, bytes } of everyEntry(file, passphrase)) {
    last = { name, bytes };
    if (name !== MANIFEST) found.push({ name, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') });
  }
  if (last?.name !== MANIFEST) throw new BadBackup(`${file} is not whole: it does not end with what it says about itself.`);
  const manifest = manifestOf(file, last.bytes);
  const wrong = manifest.entries.find((entry, at) => JSON.stringify(entry) !== JSON.stringify(found[at]));
  if (wrong) throw new BadBackup(`${file} is damaged at ${wrong.name}.`);
  if (found.length !== manifest.entries.length) throw new BadBackup(`${file} holds more than it says.`);
  return manifest;
}

function manifestOf(file: string, bytes: Buffer): Manifest {
  try {
    return manifestSchema.parse(JSON.parse(bytes.toString('utf8')));
  } catch {
    throw new BadBackup(`${file} was made by a newer version of Backsight, or is no backup.`);
  }
}

async function* everyEntry(file: string, passphrase: string | null): AsyncGenerator<Entry> {
  if (!fs.existsSync(file)) throw new BadBackup(`There is no file ${file}.`);
  const encrypted = isEncrypted(file);
  if (encrypted && passphrase === null) throw new BadBackup(`${file} is encrypted: set BACKUP_PASSPHRASE to its passphrase.`);
  const tar = extract();
  const { from, through } = encrypted ? await opened(file, passphrase!) : { from: fs.createReadStream(file), through: new PassThrough() };
  const read = pipeline(from, through, zlib.createGunzip(), tar as unknown as NodeJS.WritableStream);
  read.catch(() => {}); // told below, where the entries end
  try {
    for await (const source of tar) {
      const parts: Buffer[] = [];
      for await (const part of source) parts.push(part as Buffer);
      yield { name: source.header.name, bytes: Buffer.concat(parts) };
    }
    await read;
  } catch (error) {
    if (error instanceof BadBackup) throw error;
    const why = encrypted ? 'the passphrase is another, or the file is damaged' : (error as Error).message;
    throw new BadBackup(`${file} cannot be read: ${why}.`);
  }
}
