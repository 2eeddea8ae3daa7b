// Passwords that are refused, against OWASP ASVS 5.0.0, 6.2.4 (the 3,000 most used that are long enough) and 6.2.11 (words of the firm).
import { describe, expect, it } from 'vitest';
import { COMMON_PASSWORDS } from '@backsight/domain/people/data/commonPasswords';
import { passwordAllowed } from '@backsight/domain/people/passwords';
import { SHORTEST_PASSWORD } from '@backsight/domain/people/rules';

const of = { firm: 'Hollingrebe Home Inspection', name: 'Dolores Quist', email: 'dolores@hollingrebe.example' };
const said = (password: string): string => {
  const outcome = passwordAllowed(password, of);
  return outcome.ok ? 'allowed' : outcome.code;
};

describe('the list of the most used', () => {
  it('has 3,000 and more that are long enough, each once, in small letters', () => {
    expect(COMMON_PASSWORDS.size).toBeGreaterThanOrEqual(3000);
    expect([...COMMON_PASSWORDS].filter((word) => word.length < SHORTEST_PASSWORD || word !== word.toLowerCase())).toEqual([]);
  });
  it.each(['123qweasdzxc', '1Q2W3E4R5T6Y', 'qwertyqwerty', 'unbelievable'])('refuses %s (breached, from the list)', (password) => {
    expect(said(password)).toBe('password-common');
  });
});

describe('a password', () => {
  it.each(['aaaaaaaaaaaa', '123412341234', 'ab1ab1ab1ab1'])('of the same few again and again is refused: %s', (password) => {
    expect(said(password)).toBe('password-common');
  });
  it.each([
    'Hollingrebe2026',
    'dolores.quist',
    'HomeInspection!',
    'Dolores-Hollingrebe-1',
    'backsight12345',
    'HollingrebeOda2026',
    'welcome-office',
  ])('hardly more than names is refused: %s', (password) => {
    expect(said(password)).toBe('password-of-names');
  });
  it.each(['tamarack lake demo', 'dolores has three grey herons', '!!??--##++=='])(
    'with something of its own is allowed: %s',
    (password) => {
      expect(said(password)).toBe('allowed');
    },
  );
});
