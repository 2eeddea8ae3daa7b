// The style of a client's page: its own sheet, with the tokens of the web app in front, said so that old phones know them too.
import fs from 'node:fs';
import { createRequire } from 'node:module';

const resolve = createRequire(import.meta.url).resolve;
const read = (file: string): string => fs.readFileSync(resolve(file), 'utf8').replaceAll(/\/\*.*?\*\//gs, '');

const TWO_COLORS = /light-dark\(([^,()]+),\s*([^,()]+)\)/g;
const DECLARATION = /(--bs-[\w-]+):\s*([^;]+);/g;
/** Names of tokens that a text reads. */
const readIn = (text: string): string[] => [...text.matchAll(/var\((--bs-[\w-]+)\)/g)].map(([, name]) => name!);

/** The tokens that the sheet reads, and those that they read themselves. @throws Error where it reads one that there is not */
function usedTokens(tokens: string, sheet: string): [name: string, value: string][] {
  const known = new Map([...tokens.slice(0, tokens.indexOf('}')).matchAll(DECLARATION)].map(([, name, value]) => [name!, value!]));
  const used = new Map<string, string>();
  for (const queue = readIn(sheet); queue.length > 0;) {
    const name = queue.pop()!;
    const value = known.get(name);
    if (value === undefined) throw new Error(`A client's page reads ${name}, which is no token.`);
    if (!used.has(name)) queue.push(...readIn(value));
    used.set(name, value);
  }
  return [...used];
}

const block = (tokens: readonly (readonly [string, string])[]): string =>
  `:root{${tokens.map(([name, value]) => `${name}:${value};`).join('')}}`;

/**
 * Sheet and tokens as one. `light-dark()` is younger than many phones: the dark colors are a query of their own instead, which paper never
 * meets.
 */
export function styleOf(tokens: string, sheet: string): string {
  const used = usedTokens(tokens, sheet);
  const light = used.map(([name, value]) => [name, value.replaceAll(TWO_COLORS, '$1')] as const);
  const dark = used
    .filter(([, value]) => value.includes('light-dark('))
    .map(([name, value]) => [name, value.replaceAll(TWO_COLORS, '$2')] as const);
  const schemes = '@media screen{:root{color-scheme:light dark}}';
  return `${block(light)}${schemes}@media screen and (prefers-color-scheme:dark){${block(dark)}}${sheet.replaceAll(/\s+/g, ' ')}`;
}

export const STYLE = styleOf(read('@backsight/web/src/app/tokens.css'), read('@backsight/api/src/http/client/page.css'));
