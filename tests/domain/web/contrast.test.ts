// Contrast of what the screens draw, computed from the tokens by the formula of WCAG 2.2 (relative luminance, contrast ratio):
// 4.5:1 for words (1.4.3), 3:1 for edges of what can be pressed, signs of drawings and the focus (1.4.11).
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const file = path.resolve(import.meta.dirname, '../../../apps/web/src/app/tokens.css');

type Theme = 'light' | 'dark';
type Tokens = Record<string, string>;

/** The colors of the tokens in each theme: `--bs-x: #aabbcc;` or `--bs-x: light-dark(#aabbcc, #ddeeff);`. */
function colorsOf(css: string): Record<Theme, Tokens> {
  const found: Record<Theme, Tokens> = { light: {}, dark: {} };
  for (const [, name, light, dark] of css.matchAll(/--bs-([\w-]+):\s*(?:light-dark\()?(#[0-9a-f]{6})(?:,\s*(#[0-9a-f]{6})\))?;/g)) {
    found.light[name!] = light!;
    found.dark[name!] = dark ?? light!;
  }
  return found;
}

/** Of an sRGB color, 0 (black) to 1 (white): https://www.w3.org/TR/WCAG22/#dfn-relative-luminance */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

/** 1 to 21: https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio */
function contrast(one: string, other: string): number {
  const [darker, lighter] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter! + 0.05) / (darker! + 0.05);
}

const grounds = ['ground', 'surface', 'sunken', 'primary-tint', 'wrong-tint', 'caution-tint'];
const over = (words: readonly string[], on: readonly string[]): [string, string][] =>
  words.flatMap((word) => on.map((ground): [string, string] => [word, ground]));
const WORDS: [string, string][] = [
  ...over(['ink', 'ink-soft', 'primary', 'primary-deep', 'wrong', 'wrong-deep', 'caution', 'caution-deep'], [...grounds, 'sunken-deep']),
  // what is written on a filled button or in a tip
  ...over(['surface'], ['primary', 'primary-hover', 'wrong', 'wrong-deep', 'caution', 'caution-deep', 'ink']),
  ['primary-deep', 'primary-tint-hover'],
  ['wrong-deep', 'wrong-tint-hover'],
  ['caution-deep', 'caution-tint-hover'],
  ['on-brand', 'brand'],
  ['sheet-ink', 'sheet'],
];
const EDGES: [string, string][] = [
  ...over(['edge', 'primary', 'wrong', 'caution'], grounds),
  ['sheet-edge', 'sheet'],
  ['code-dark', 'code-light'],
  ['primary-deep', 'primary-line'], // the outline of a bar of a drawing
];
/** Neither words nor edges of something to press: lines that only part, grounds under a pointer. */
const ONLY_SEEN = ['line', 'wrong-line', 'caution-line'];

describe('the formula', () => {
  // The first two as W3C gives them (understanding 1.4.3 and technique G18); the known greys at the limits, as checkers of contrast print them, cut after two digits.
  it.each([
    ['#000000', '#ffffff', 21],
    ['#ffffff', '#ffffff', 1],
    ['#767676', '#ffffff', 4.54],
    ['#777777', '#ffffff', 4.47],
    ['#949494', '#ffffff', 3.03],
    ['#959595', '#ffffff', 2.99],
  ])('%s on %s is %d', (one, other, published) => {
    expect(Math.floor(contrast(one, other) * 100) / 100).toBe(published);
    expect(contrast(other, one)).toBe(contrast(one, other));
  });
});

describe('the tokens', () => {
  const tokens = colorsOf(fs.readFileSync(file, 'utf8'));
  const below = (pairs: readonly [string, string][], least: number): string[] =>
    (['light', 'dark'] as const).flatMap((theme) =>
      pairs
        .map(([one, other]) => ({ words: `${theme}: ${one} on ${other}`, ratio: contrast(tokens[theme][one]!, tokens[theme][other]!) }))
        .filter(({ ratio }) => !(ratio >= least))
        .map(({ words, ratio }) => `${words} is ${ratio.toFixed(2)}`),
    );
  it('words stand out from every ground they stand on, in both themes', () => expect(below(WORDS, 4.5)).toEqual([]));
  it('edges and signs do', () => expect(below(EDGES, 3)).toEqual([]));
  it('every color is of one of these pairs, or is said to be none of them', () => {
    const held = new Set([...WORDS, ...EDGES].flat());
    expect(Object.keys(tokens.light).filter((name) => !held.has(name) && !ONLY_SEEN.includes(name))).toEqual([]);
  });
});
