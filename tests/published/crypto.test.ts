// Digests and password hashing against published vectors.
import { createHash } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';
import { describe, expect, it } from 'vitest';
import { forPhone, stepOf } from '@backsight/usecases/people/steps/oneTimeCode';
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

describe('one-time codes by time', () => {
  // RFC 6238, appendix B, SHA-1, secret "12345678901234567890". It prints eight digits; six are the last of them (RFC 4226, 5.3: modulo 10^digits).
  const secret = Buffer.from('12345678901234567890');
  const printed = [
    [59, '94287082'],
    [1_111_111_109, '07081804'],
    [1_111_111_111, '14050471'],
    [1_234_567_890, '89005924'],
    [2_000_000_000, '69279037'],
    [20_000_000_000, '65353130'],
  ] as const;
  it.each(printed)('at %i s is %s', (seconds, eight) => {
    const step = Math.floor(seconds / 30);
    const at = (later: number) => new Date((seconds + later) * 1000);
    expect(stepOf(secret, eight.slice(2), at(0), 0)).toBe(step);
    expect([stepOf(secret, eight.slice(2), at(30), 0), stepOf(secret, eight.slice(2), at(90), 0)], 'one step late, three late').toEqual([
      step,
      null,
    ]);
    expect(stepOf(secret, eight.slice(2), at(0), step), 'good once').toBe(null);
  });
  it('are told to a phone by an address that names the firm and the person', () => {
    const { secret: text, uri } = forPhone(secret, 'harriet@hollingrebe.example', 'Hollin Grebe');
    expect(text, 'RFC 4648, base 32').toBe('GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ');
    expect(new URL(uri)).toMatchObject({ protocol: 'otpauth:', host: 'totp' });
    expect(Object.fromEntries(new URL(uri).searchParams)).toEqual({
      issuer: 'Hollin Grebe',
      secret: text,
      algorithm: 'SHA1',
      digits: '6',
      period: '30',
    });
  });
});
