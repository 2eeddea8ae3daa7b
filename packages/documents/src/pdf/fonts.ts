// The faces in which papers are set: Noto Sans (SIL Open Font License 1.1), with Latin, Greek and Cyrillic letters and their accents.
// Only the letters that a paper uses are put into its file.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font, type GlyphRun } from 'fontkit';
import type { Face } from './wrap.ts';

const FILES: Record<Face, string> = {
  regular: '400Regular/NotoSans_400Regular.ttf',
  bold: '700Bold/NotoSans_700Bold.ttf',
  italic: '400Regular_Italic/NotoSans_400Regular_Italic.ttf',
};

const { resolve } = createRequire(import.meta.url);
const loaded = new Map<Face, Font>();

/** Longer texts are not remembered, in letters. */
const LONGEST_KEPT = 40;

const MOST_LAYOUTS = 20_000;

/** A copy whose positions may be scaled, as the maker of PDF does, without changing what is remembered. */
const copyOf = (run: GlyphRun): GlyphRun =>
  Object.assign(Object.create(Object.getPrototypeOf(run) as object), run, {
    positions: run.positions.map((one) => ({ ...one })),
  }) as GlyphRun;

/** Remembers how words are laid out: papers of a firm use the same words again and again, and layout is their dearest part. */
function remembering(font: Font): Font {
  const layout = font.layout.bind(font) as (text: string, features?: unknown) => GlyphRun;
  const known = new Map<string, GlyphRun>();
  font.layout = ((text: string, features?: unknown) => {
    if (features !== undefined || text.length > LONGEST_KEPT) return layout(text, features);
    let run = known.get(text);
    if (!run) {
      if (known.size >= MOST_LAYOUTS) known.clear();
      known.set(text, (run = layout(text)));
    }
    return copyOf(run);
  }) as Font['layout'];
  return font;
}

/** The font of a face, read once for the life of the service. */
export function fontOf(face: Face): Font {
  let font = loaded.get(face);
  if (!font) loaded.set(face, (font = remembering(create(readFileSync(resolve(`@expo-google-fonts/noto-sans/${FILES[face]}`))) as Font)));
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

const widths = new Map<string, number>();
const MOST_WIDTHS = 50_000;

/** Width in points of a text set in a face at a size. Widths of words are remembered; a long text is as wide as its words with their blanks, as the maker of PDF sets them. */
export function textWidth(text: string, face: Face, size: number): number {
  if (text.length > LONGEST_KEPT && text.trimEnd().includes(' ') && !BEYOND_LATIN_1.test(text))
    return text.split(/(?<= )/).reduce((sum, word) => sum + textWidth(word, face, size), 0);
  const key = `${face} ${text}`;
  const known = widths.get(key);
  if (known !== undefined) return known * size;
  const font = fontOf(face);
  const width = font.layout(text, featuresOf(text)).advanceWidth / font.unitsPerEm;
  if (widths.size >= MOST_WIDTHS) widths.clear();
  if (text.length <= LONGEST_KEPT) widths.set(key, width);
  return width * size;
}
