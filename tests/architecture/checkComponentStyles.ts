// The app takes the styles of the library's parts one by one: each that is drawn with, none that is not, in the library's own order.
import fs from 'node:fs';
import path from 'node:path';
import type { SourceFile } from './read.ts';

const LIBRARY = 'node_modules/@mantine/core';
/** Not of one part: what all of them build on, first. */
const BASE = ['baseline', 'default-css-variables', 'global'];
const USED = /import (?:type )?\{([^}]*)\} from '@mantine\/core'/g;
const FROM = /(?:from|import) "(\.[^"]+)"/g;
const TAKEN = /@import '@mantine\/core\/styles\/([\w-]+)\.css'/g;

const read = (root: string, name: string): string => fs.readFileSync(path.join(root, LIBRARY, name), 'utf8');
const namesIn = (list: string): string[] =>
  list.split(',').map((name) =>
    name
      .trim()
      .replace(/^type /, '')
      .replace(/ as .*/, ''),
  );

/** Names of the style sheets that the parts used in `files` draw with, in the order in which the library's own sheet holds them. */
export function stylesUsed(root: string, files: readonly SourceFile[]): string[] {
  const fileOf = new Map(
    [...read(root, 'esm/index.mjs').matchAll(/import \{([^}]*)\} from "([^"]+)"/g)].flatMap(([, names, at]) =>
      namesIn(names!).map((name) => [name, path.posix.join('esm', at!)] as const),
    ),
  );
  const used = files.filter((file) => file.path.startsWith('apps/web/src/')).flatMap(({ text }) => [...text.matchAll(USED)]);
  const toRead = used.flatMap(([, names]) => namesIn(names!)).flatMap((name) => fileOf.get(name) ?? []);
  const seen = new Set<string>();
  for (let next = toRead.pop(); next !== undefined; next = toRead.pop()) {
    if (seen.has(next)) continue;
    seen.add(next);
    for (const [, at] of read(root, next).matchAll(FROM)) toRead.push(path.posix.join(path.posix.dirname(next), at!));
  }
  const whole = read(root, 'styles.css');
  const placeOf = (name: string): number => whole.indexOf(/\.m_[0-9a-f]+/.exec(read(root, `styles/${name}.css`))![0]);
  const sheets = [...seen].flatMap((file) => /([\w-]+)\.module\.mjs$/.exec(file)?.[1] ?? []);
  return [...BASE, ...sheets.sort((a, b) => placeOf(a) - placeOf(b))];
}

/** Names of the style sheets that a style sheet takes from the library. */
export const stylesTaken = (text: string): string[] => [...text.matchAll(TAKEN)].map(([, name]) => name!);
