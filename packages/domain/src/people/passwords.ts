// What a password must be like. Length and being no known or easy one; never which kinds of characters it is made of.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { COMMON_PASSWORDS } from './data/commonPasswords.ts';
import { SHORTEST_PASSWORD } from './rules.ts';

/** Words that everybody tries first; beside them stand the names of the firm and of the person. */
const TRIED_FIRST =
  'backsight inspector inspection inspections office owner manager admin administrator password passwort passphrase welcome letmein changeme iloveyou qwerty qwertz asdfgh abcdef 123456 654321 111111 000000'.split(
    ' ',
  );
/** Shorter parts of a name stand in too many other words. */
const SHORTEST_WORD = 4;
/** So many letters and digits must be left of a password when such words are taken out of it. */
const LEFT_OVER = 8;

/** Whose password it is to be, and at which firm. */
export type PasswordOf = { firm: string; name: string; email: string };

/** The words that a password may hold but not be made of: those that everybody tries first, and each word of firm, name and address. */
export const wordsOf = ({ firm, name, email }: PasswordOf): string[] =>
  [...TRIED_FIRST, ...`${firm} ${name} ${email}`.toLowerCase().split(/[^\p{L}\p{N}]+/u)]
    .filter((word) => word.length >= SHORTEST_WORD)
    .toSorted((a, b) => b.length - a.length);

/**
 * Whether somebody may take a password. Refusals: password-too-short; password-common (among the most used ones, which breaches have shown,
 * or the same few characters again and again); password-of-names (hardly more than such words).
 */
export function passwordAllowed(password: string, of: PasswordOf): Outcome<null> {
  if (password.length < SHORTEST_PASSWORD) return refuse('password-too-short', {}, 'password');
  const small = password.toLowerCase();
  if (COMMON_PASSWORDS.has(small) || /^(.{1,4})\1+.{0,3}$/su.test(small)) return refuse('password-common', {}, 'password');
  const rest = wordsOf(of).reduce((left, word) => left.replaceAll(word, ''), small);
  const own = rest.replace(/[^\p{L}\p{N}]/gu, '');
  return own.length < LEFT_OVER && rest !== small ? refuse('password-of-names', {}, 'password') : accept(null);
}
