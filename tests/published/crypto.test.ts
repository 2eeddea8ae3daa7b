// Digests and password hashing against published vectors.
import { createHash } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';
import { describe, expect, it } from 'vitest';
import { sha256 } from '@backsight/usecases/agreements/steps/digest';
import { argon2ids, digests } from './data/crypto.ts';

describe('SHA-256', () => {
  it.each(digests)('$name ($source; $status)', ({ text, repeat, hex }) => {
    const whole = text.repeat(repeat);
    expect(sha256(whole)).toBe(hex);
    expect(createHash('sha256').update(Buffer.from(whole)).digest('hex')).toBe(hex);
  });
});

describe('argon2id', () => {
  it.each(argon2ids)('$name ($source; $status)', async ({ password, salt, memoryKib, passes, lanes, phc }) => {
    const made = await hash(password, {
      salt: Buffer.from(salt),
      memoryCost: memoryKib,
      timeCost: passes,
      parallelism: lanes,
      outputLen: 32,
      algorithm: 2,
    });
    expect(made).toBe(phc);
    expect(await verify(phc, password)).toBe(true);
    expect(await verify(phc, `${password}x`)).toBe(false);
  });
});
