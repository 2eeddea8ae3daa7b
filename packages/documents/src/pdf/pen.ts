// Writes words into a page of pdfkit by operators of its own (ISO 32000-1, 9.4): the same as `text` of pdfkit writes, without measuring
// and laying out anew what was laid out before. It leans on what pdfkit keeps inside, whose version is exact; the tests read the text back.
import { featuresOf, fontOf, laidOut, wordsOf, type Laid } from './fonts.ts';
import type { Face } from './wrap.ts';

/** A font inside one file of pdfkit. */
type Embedded = {
  id: string;
  ascender: number;
  widths: number[];
  unicode: number[][];
  subset: { includeGlyph: (id: number) => number };
  ref: () => unknown;
};
type Inside = PDFKit.PDFDocument & {
  _font: Embedded;
  page: { height: number; fonts: Record<string, unknown>; write: (operators: string) => void };
};

/** A face inside one file: its font, and the operands of words that were shown already. */
type Nib = { font: Embedded; shown: Map<string, string | null> };
export type Pen = (text: string, face: Face, at: { x: number; y: number; size: number }) => void;

/** The file's own number of a glyph, four digits; notes how wide it is and what it reads as. */
function numberOf({ font }: Nib, glyph: Laid['glyphs'][number], scale: number): string {
  const id = font.subset.includeGlyph(glyph.id);
  font.widths[id] ??= glyph.advanceWidth * scale;
  font.unicode[id] ??= [...glyph.codePoints];
  return id.toString(16).padStart(4, '0');
}

/** Operands of TJ for one word: glyphs, and how far the pen goes back between them; null where a glyph is lifted. */
function operands(nib: Nib, word: string, face: Face): string | null {
  const { glyphs, kerns, lifted } = laidOut(word, face);
  if (lifted) return null;
  const scale = 1000 / fontOf(face).unitsPerEm;
  let written = '<';
  for (const [at, glyph] of glyphs.entries()) {
    written += numberOf(nib, glyph, scale);
    if (kerns[at] !== 0) written += `>${rounded(-kerns[at]!)}<`;
  }
  return `${written}>`.replaceAll('<>', '');
}

const rounded = (points: number): number => Math.round(points * 1000) / 1000;

/** A pen for one file: sets a text with its top at `y`, in the color that the file has. */
export function penOf(file: PDFKit.PDFDocument): Pen {
  const doc = file as Inside;
  const nibs = new Map<Face, Nib>();
  const nibOf = (face: Face): Nib => {
    let nib = nibs.get(face);
    if (!nib) {
      doc.font(fontOf(face).postscriptName);
      nibs.set(face, (nib = { font: doc._font, shown: new Map() }));
    }
    return nib;
  };
  const shown = (nib: Nib, word: string, face: Face): string | null => {
    let known = nib.shown.get(word);
    if (known === undefined) nib.shown.set(word, (known = operands(nib, word, face)));
    return known;
  };
  return (text, face, { x, y, size }) => {
    if (text === '') return;
    const nib = nibOf(face);
    const words = wordsOf(text).map((word) => shown(nib, word, face));
    if (words.includes(null)) {
      doc.font(fontOf(face).postscriptName).fontSize(size);
      doc.text(text, x, y, { lineBreak: false, features: featuresOf(text) } as unknown as PDFKit.Mixins.TextOptions);
      return;
    }
    const { page } = doc;
    page.fonts[nib.font.id] ??= nib.font.ref();
    const up = page.height - y - (nib.font.ascender * size) / 1000;
    // pages of pdfkit stand on their head, letters must not
    page.write(
      `q\n1 0 0 -1 0 ${rounded(page.height)} cm\nBT\n/${nib.font.id} ${rounded(size)} Tf\n1 0 0 1 ${rounded(x)} ${rounded(up)} Tm\n[${words.join('')}] TJ\nET\nQ`,
    );
  };
}
