// Free text and personal words, kept beside the append-only rows and bound to them by a salted digest.
import { createHash, randomBytes } from 'node:crypto';
import type { Tx } from './database.ts';

/** Digest that still proves the words when they are shown, and says nothing once salt and words are erased. */
export const textDigest = (salt: Uint8Array, body: string): string => createHash('sha256').update(salt).update(body, 'utf8').digest('hex');

/** Keeps a text and returns its id. */
export async function keepText(tx: Tx, id: string, body: string, recordedAt: Date): Promise<string> {
  const salt = new Uint8Array(randomBytes(16));
  await tx.db.keptText.create({ data: { id, salt, body, digest: textDigest(salt, body), recordedAt } });
  return id;
}
