// One-time codes by time (TOTP, RFC 6238: SHA-1, 6 digits, 30 seconds, one step of drift each way), and their secret, which is never kept in the clear.
import { createCipheriv, createDecipheriv, createHash, randomBytes } from 'node:crypto';
import { Secret, TOTP } from 'otpauth';
import { RECOVERY_CODES } from '@backsight/domain/people/secondFactor';

const PERIOD = 30;
const DRIFT = 1;
/** RFC 4226, section 4, R6: 160 bits. */
const SECRET_BYTES = 20;
const [NONCE, TAG] = [12, 16];

export const newSecret = (): Buffer => randomBytes(SECRET_BYTES);
const totp = (secret: Buffer, label = '', issuer = ''): TOTP =>
  new TOTP({ secret: new Secret({ buffer: new Uint8Array(secret).buffer }), algorithm: 'SHA1', digits: 6, period: PERIOD, label, issuer });

/** The step whose code this is, at an instant; null when it is none, or not newer than the newest that was taken. */
export function stepOf(secret: Buffer, code: string, now: Date, newest: number): number | null {
  const delta = totp(secret).validate({ token: code, timestamp: now.getTime(), window: DRIFT });
  const step = delta === null ? null : Math.floor(now.getTime() / 1000 / PERIOD) + delta;
  return step !== null && step > newest ? step : null;
}

/** What an authenticator takes in: the secret in base 32 for the keyboard, and an address for its camera. */
export const forPhone = (secret: Buffer, label: string, issuer: string): { secret: string; uri: string } => {
  const made = totp(secret, label, issuer);
  return { secret: made.secret.base32, uri: made.toString() };
};

/** Encrypts a secret for one person with the key of the installation (AES-256-GCM): 48 bytes. */
export function sealSecret(key: Buffer, personId: string, secret: Buffer): Buffer {
  const nonce = randomBytes(NONCE);
  const cipher = createCipheriv('aes-256-gcm', key, nonce).setAAD(Buffer.from(personId));
  return Buffer.concat([nonce, cipher.update(secret), cipher.final(), cipher.getAuthTag()]);
}

/** The secret, or null when the key of this installation is another one. */
export function openSecret(key: Buffer, personId: string, sealed: Uint8Array): Buffer | null {
  const bytes = Buffer.from(sealed);
  try {
    const decipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, NONCE)).setAAD(Buffer.from(personId));
    decipher.setAuthTag(bytes.subarray(-TAG));
    return Buffer.concat([decipher.update(bytes.subarray(NONCE, -TAG)), decipher.final()]);
  } catch {
    return null;
  }
}

const LETTERS = 'abcdefghijkmnpqrstuvwxyz23456789';
/** 28 letters of 32: 140 bits; OWASP ASVS 5 wants 128 of whatever nobody may guess (11.5.1), and a slow hash below 112 (6.5.2). */
const CODE_LENGTH = 28;

/** Codes for whoever loses the second factor, as they are shown once. */
export const newRecoveryCodes = (): string[] =>
  Array.from({ length: RECOVERY_CODES }, () =>
    [...randomBytes(CODE_LENGTH)]
      .map((byte) => LETTERS[byte % LETTERS.length]!)
      .join('')
      .replace(/(.{4})(?=.)/g, '$1-'),
  );

/** Under what a recovery code is kept. */
export const recoveryDigest = (code: string): string => createHash('sha256').update(code.replaceAll('-', '')).digest('hex');
