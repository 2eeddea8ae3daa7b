// Passwords and session tokens: argon2id (RFC 9106, second recommended option scaled to 64 MiB, 3 passes, 1 lane), and random tokens kept only as digests.
import { createHash, createHmac, randomBytes } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';

const COST = { memoryCost: 65_536, timeCost: 3, parallelism: 1 };

export const hashPassword = (password: string): Promise<string> => hash(password, COST);

/** Whether a hash was made as they are made today; one that was not is made anew when its person signs in. */
export const isOfToday = (stored: string): boolean =>
  stored.startsWith(`$argon2id$v=19$m=${COST.memoryCost},t=${COST.timeCost},p=${COST.parallelism}$`);

/** A hash that no password fits: checking against it costs as much as a real one, so that time does not tell who exists. */
const NOBODY = '$argon2id$v=19$m=65536,t=3,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA';

export const passwordFits = (stored: string | null, password: string): Promise<boolean> =>
  verify(stored ?? NOBODY, password).catch(() => false);

/** A token of 256 random bits and the digest under which it is kept. */
export function newToken(): { token: string; tokenHash: string } {
  const token = randomBytes(32).toString('base64url');
  return { token, tokenHash: tokenDigest(token) };
}

export const tokenDigest = (token: string): string => createHash('sha256').update(token).digest('hex');

/** Digest of something that is easily guessed, an address of the network: without the key nobody finds it by trying. */
export const keyedDigest = (key: Buffer, text: string): string => createHmac('sha256', key).update(text).digest('hex');
