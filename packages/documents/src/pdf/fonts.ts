// The faces in which papers are set: Noto Sans (SIL Open Font License 1.1), with Latin, Greek and Cyrillic letters and their accents.
// Only the letters that a paper uses are put into its file. How a word is laid out is remembered: papers of a firm use the same words
// again and again, and layout is their dearest part.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font, type Glyph } from 'fontkit';
import type { Face } from './wrap.ts';

const FILES: Record<Face, string> = {
  regular: '400Regular/NotoSans_400Regular.ttf',
  bold: '700Bold/NotoSans_700Bold.ttf',
  italic: '400Regular_Italic/NotoSans_400Regular_Italic.ttf',
};

/** A word as it is set. Lengths are thousandths of its size. */
export type Laid = {
  glyphs: readonly Glyph[];
  /** How much farther than its own width each glyph moves the pen: what is kerned. */ kerns: readonly number[];
  width: number;
  /** Whether a glyph stands above or below where the pen is, as an accent of its own does. */ lifted: boolean;
};

const { resolve } = createRequire(import.meta.url);
const loaded = new Map<Face, Font>();
const remembered: Record<Face, Map<string, Laid>> = { regular: new Map(), bold: new Map(), italic: new Map() };

/** Longer words are not remembered, in letters. */
const LONGEST_KEPT = 40;
const MOST_KEPT = 10_000;

/** The font of a face, read once for the life of the service. */
export function fontOf(face: Face): Font {
  let font = loaded.get(face);
  if (!font) loaded.set(face, (font = create(readFileSync(resolve(`@expo-google-fonts/noto-sans/${FILES[face]}`))) as Font));
  return font;
}

const PLAIN = /^[\n\x20-\x7e]*$/;

/** A text as it can be set: composed letters, no control characters; a letter that no face has is told by its code point, so that nothing is lost. */
export function settable(text: string): string {
  if (PLAIN.test(text)) return text;
  const font = fontOf('regular');
  let set = '';
  for (const letter of text.normalize('NFC').replaceAll('\r\n', '\n').replaceAll('\t', ' ')) {
    const code = letter.codePointAt(0)!;
    if (letter === '\n') set += letter;
    else if (code < 32 || (code > 126 && code < 160)) continue;
    else set += font.hasGlyphForCodePoint(code) ? letter : `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
  }
  return set;
}

const BEYOND_LATIN_1 = /[\u0100-\u1fff\u2070-\uffff]/;
/** How a text is set. Rare letters stay whole: Noto takes ị apart into i and a dot, and the dot alone could not be read back as text. */
export const featuresOf = (text: string): { ccmp: false } | undefined => (BEYOND_LATIN_1.test(text) ? { ccmp: false } : undefined);

/** Words and the single blanks between them, each of which is laid out by itself. */
export const wordsOf = (text: string): string[] => (text.includes(' ') ? text.split(/( )/).filter((word) => word !== '') : [text]);

/** Numbers and fingerprints, of which no two papers have the same. In Noto Sans these letters stand beside one another as they are, but for f. */
const NUMBER = /^[\da-f.,:$%#/-]{2,}$/;
const APART = /f[f.,]*|[^f]/g;

const joined = (parts: readonly Laid[]): Laid => ({
  glyphs: parts.flatMap(({ glyphs }) => glyphs),
  kerns: parts.flatMap(({ kerns }) => kerns),
  width: parts.reduce((sum, { width }) => sum + width, 0),
  lifted: false,
});

/** How one of `wordsOf` is set. */
export function laidOut(word: string, face: Face): Laid {
  const known = remembered[face].get(word);
  if (known) return known;
  if (NUMBER.test(word)) {
    const parts = word.match(APART)!;
    if (parts.length > 1) return joined(parts.map((part) => laidOut(part, face)));
  }
  const font = fontOf(face);
  const { glyphs, positions } = font.layout(word, featuresOf(word));
  const scale = 1000 / font.unitsPerEm;
  const laid: Laid = {
    glyphs,
    kerns: positions.map(({ xAdvance }, at) => (xAdvance - glyphs[at]!.advanceWidth) * scale),
    width: positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0) * scale,
    lifted: positions.some(({ xOffset, yOffset }) => xOffset !== 0 || yOffset !== 0),
  };
  if (remembered[face].size >= MOST_KEPT) remembered[face].clear();
  if (word.length <= LONGEST_KEPT) remembered[face].set(word, laid);
  return laid;
}

/** Width in points of a text set in a face at a size. */
export const textWidth = (text: string, face: Face, size: number): number =>
  (wordsOf(text).reduce((sum, word) => sum + laidOut(word, face).width, 0) * size) / 1000;
