// Encryption of a backup by a passphrase: AES-256-GCM (NIST SP 800-38D) under a key from scrypt (RFC 7914).
import { createCipheriv, createDecipheriv, randomBytes, scrypt } from 'node:crypto';
import fs from 'node:fs';
import type { Duplex } from 'node:stream';

/** The first bytes of an encrypted backup; after them salt, nonce, what was encrypted, and the tag. Without them a backup is a plain .tar.gz. */
const MAGIC = Buffer.from('BACKSIGHT-ENCRYPTED-1\n');
const [SALT, NONCE, TAG] = [16, 12, 16];
const HEAD = MAGIC.length + SALT + NONCE;
/** OWASP Password Storage Cheat Sheet: N = 2^17, r = 8, p = 1, which takes 128 MiB. */
const COST = { N: 2 ** 17, r: 8, p: 1, maxmem: 2 ** 28 };

const keyOf = (passphrase: string, salt: Buffer): Promise<Buffer> =>
  new Promise((resolve, reject) =>
    scrypt(passphrase.normalize('NFKC'), salt, 32, COST, (error, key) => (error ? reject(error) : resolve(key))),
  );

export type Sealer = { head: Buffer; through: Duplex; /** Once everything went through. */ tail: () => Buffer };

/** A way through which a backup is encrypted, with what stands before and behind it. One file holds at most 64 GiB. */
export async function sealer(passphrase: string): Promise<Sealer> {
  const [salt, nonce] = [randomBytes(SALT), randomBytes(NONCE)];
  const cipher = createCipheriv('aes-256-gcm', await keyOf(passphrase, salt), nonce);
  const head = Buffer.concat([MAGIC, salt, nonce]);
  cipher.setAAD(head);
  return { head, through: cipher, tail: () => cipher.getAuthTag() };
}

export const isEncrypted = (file: string): boolean => {
  const first = Buffer.alloc(MAGIC.length);
  const opened = fs.openSync(file, 'r');
  try {
    fs.readSync(opened, first, 0, MAGIC.length, 0);
  } finally {
    fs.closeSync(opened);
  }
  return first.equals(MAGIC);
};

/** What was encrypted, as a stream; it fails at its end when a byte was changed or the passphrase is another. */
export async function opened(file: string, passphrase: string): Promise<{ from: fs.ReadStream; through: Duplex }> {
  const { size } = fs.statSync(file);
  if (size < HEAD + TAG) throw new Error(`${file} ends before it has begun.`);
  const [head, tag] = [await bytesOf(file, 0, HEAD), await bytesOf(file, size - TAG, TAG)];
  const salt = head.subarray(MAGIC.length, MAGIC.length + SALT);
  const decipher = createDecipheriv('aes-256-gcm', await keyOf(passphrase, salt), head.subarray(MAGIC.length + SALT));
  decipher.setAAD(head);
  decipher.setAuthTag(tag);
  return { from: fs.createReadStream(file, { start: HEAD, end: size - TAG - 1 }), through: decipher };
}

async function bytesOf(file: string, position: number, length: number): Promise<Buffer> {
  const handle = await fs.promises.open(file);
  try {
    const { buffer } = await handle.read(Buffer.alloc(length), 0, length, position);
    return buffer;
  } finally {
    await handle.close();
  }
}
