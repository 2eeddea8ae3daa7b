// The key of the installation: made once, kept beside the data, never in a log, in a reply or in a backup that is not encrypted.
import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

export const KEY_BYTES = 32;

/** Where it lies. */
export const secretKeyFile = (dataDir: string): string => path.join(dataDir, 'secret.key');

/** Reads it, or makes it; of two services that start at once, both get the same. @throws Error when the file is not one that was made here */
export function secretKey(dataDir: string): Buffer {
  const file = secretKeyFile(dataDir);
  if (!fs.existsSync(file)) {
    fs.mkdirSync(dataDir, { recursive: true });
    const making = `${file}.${process.pid}.part`;
    fs.writeFileSync(making, randomBytes(KEY_BYTES), { mode: 0o600 });
    try {
      fs.linkSync(making, file); // whole, or not there: never half a key
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    } finally {
      fs.rmSync(making);
    }
  }
  const key = fs.readFileSync(file);
  if (key.length !== KEY_BYTES)
    throw new Error(`${file} is not the key that was made here: it has ${key.length} bytes and should have ${KEY_BYTES}.`);
  return key;
}

/** The bytes of the file, or null where no service has run yet. */
export const keptSecretKey = (dataDir: string): Buffer | null =>
  fs.existsSync(secretKeyFile(dataDir)) ? fs.readFileSync(secretKeyFile(dataDir)) : null;

/** Puts the key of another installation, whose rows come too, in the place of this one's. */
export function bringSecretKey(dataDir: string, key: Buffer): void {
  const file = secretKeyFile(dataDir);
  fs.mkdirSync(dataDir, { recursive: true });
  fs.writeFileSync(`${file}.part`, key, { mode: 0o600 });
  fs.renameSync(`${file}.part`, file);
}
