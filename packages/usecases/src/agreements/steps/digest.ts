// Digests of what was shown, and private links of which only the digest is stored.
import { createHash, randomBytes } from 'node:crypto';

/** SHA-256 of a text in UTF-8, as hex (FIPS 180-4). */
export const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

/** A fresh token of 256 random bits, as 43 letters of base64url, with the digest that is stored in its place. */
export function newToken(): { token: string; tokenHash: string } {
  const token = randomBytes(32).toString('base64url');
  return { token, tokenHash: sha256(token) };
}

/** Digest of a network address with a salt of its own: says nothing by itself, and proves an address once one is named. */
export function saltedAddress(ip: string): string {
  const salt = randomBytes(16).toString('hex');
  return `${salt}:${sha256(`${salt}${ip}`)}`;
}
