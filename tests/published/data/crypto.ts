// Digests and password hashes, as published.
import type { PublishedCase } from './publishedCase.ts';

const fips = 'FIPS 180-4, NIST CSRC example values';
const recomputed = 'from memory, recomputed';

export const digests: (PublishedCase & { text: string; repeat: number; hex: string })[] = [
  { name: 'abc', source: fips, status: recomputed, text: 'abc', repeat: 1, hex: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad' },
  { name: 'empty', source: fips, status: recomputed, text: '', repeat: 1, hex: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' },
];

const reference = 'Argon2 reference implementation, src/test.c (Biryukov, Dinu, Khovratovich et al.)';

/** The RFC 9106 vector takes a secret and associated data, which the service never uses. */
export const argon2ids: (PublishedCase & { password: string; salt: string; memoryKib: number; passes: number; lanes: number; phc: string })[] = [
  {
    name: 'm=65536 t=2 p=1',
    source: reference,
    status: recomputed,
    password: 'password',
    salt: 'somesalt',
    memoryKib: 65_536,
    passes: 2,
    lanes: 1,
    phc: '$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc',
  },
  {
    name: 'm=256 t=2 p=2',
    source: reference,
    status: recomputed,
    password: 'password',
    salt: 'somesalt',
    memoryKib: 256,
    passes: 2,
    lanes: 2,
    phc: '$argon2id$v=19$m=256,t=2,p=2$c29tZXNhbHQ$bQk8UB/VmZZF4Oo79iDXuL5/0ttZwg2f/5U52iv1cDc',
  },
];
