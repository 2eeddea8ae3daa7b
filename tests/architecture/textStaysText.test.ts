// Text is never run and never becomes markup by itself (OWASP ASVS 5.0.0, 1.3.2 and 3.2.2): nothing here makes code or HTML of a string.
import { expect, it } from 'vitest';
import { repository } from './read.ts';

const MAKES =
  /\beval\(|\bnew Function\(|dangerouslySetInnerHTML|\.(?:inner|outer)HTML\s*=|insertAdjacentHTML|document\.write\(|\bfrom 'node:vm'|setTimeout\(\s*['"`]/;

it('in the service, the app and the scripts of the pages of clients', () => {
  const ours = repository().filter(({ path }) => /^(apps|packages)\/.*\/(src|public)\//.test(path) && !path.includes('/generated/'));
  expect(ours.length).toBeGreaterThan(500);
  expect(ours.filter(({ text }) => MAKES.test(text)).map(({ path }) => path)).toEqual([]);
});
