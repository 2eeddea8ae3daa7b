// The pages of one file: where the pen stands, what is tagged, when a new page begins.
import PDFDocument from 'pdfkit';
import type { PaperSize, PdfPaper } from './content.ts';
import type { TakenPage } from './shapes.ts';
import { fontOf, settable, textWidth } from './fonts.ts';
import { penOf, type Pen } from './pen.ts';
import { widthOf, type Face, type Line } from './wrap.ts';

/** Sizes in points (1/72 inch): US Letter 8.5 by 11 inch, A4 210 by 297 mm (ISO 216). */
const SIZES: Record<PaperSize, [number, number]> = { letter: [612, 792], a4: [595.28, 841.89] };
/** Wide enough for both sizes, so that a file set for one prints whole on the other. */
const MARGIN = { side: 60, top: 64, bottom: 84 };

export type Element = ReturnType<PDFKit.PDFDocument['struct']>;
export type Sheet = {
  doc: PDFKit.PDFDocument;
  pen: Pen;
  root: Element;
  left: number;
  right: number;
  top: number;
  bottom: number;
  y: number;
  /** Pages that were marked, counted from 1. */
  marks: Map<string, number>;
  /** Places left for pages of other files. */
  taken: TakenPage[];
};

export const GRAY = '#555555';
const INK = '#111111';

/** Opens the file: tagged, with language and title (PDF/UA-1, ISO 14289-1). */
export function newSheet(paper: PdfPaper): Sheet {
  const [width, height] = SIZES[paper.size ?? 'letter'];
  const doc = new PDFDocument({
    size: [width, height],
    margin: 0,
    pdfVersion: '1.7',
    subset: 'PDF/UA',
    tagged: true,
    lang: 'en-US',
    displayTitle: true,
    bufferPages: true,
    autoFirstPage: true,
    font: fontOf('regular'),
    info: {
      Title: settable(paper.title),
      Author: settable(paper.firm),
      Creator: 'Backsight',
      Producer: 'Backsight',
      CreationDate: paper.at,
      ModDate: paper.at,
    },
  } as unknown as PDFKit.PDFDocumentOptions);
  for (const font of (['regular', 'bold', 'italic'] as const).map(fontOf)) doc.registerFont(font.postscriptName, font as unknown as string);
  const root = doc.struct('Document');
  doc.addStructure(root);
  return {
    doc,
    pen: penOf(doc),
    root,
    left: MARGIN.side,
    right: width - MARGIN.side,
    top: MARGIN.top,
    bottom: height - MARGIN.bottom,
    y: MARGIN.top,
    marks: new Map(),
    taken: [],
  };
}

export function nextPage(sheet: Sheet): void {
  sheet.doc.addPage();
  sheet.y = sheet.top;
}

/** Begins a new page unless `points` are left on this one. */
export function room(sheet: Sheet, points: number): void {
  if (sheet.y + points > sheet.bottom && sheet.y > sheet.top) nextPage(sheet);
}

/** A new element below `parent`; `scope` says what a head cell is the head of. */
export function element(sheet: Sheet, parent: Element, type: string, scope?: 'Row' | 'Column'): Element {
  const made = sheet.doc.struct(type, (scope ? { scope } : {}) as PDFKit.Mixins.StructureElementOptions);
  parent.add(made);
  return made;
}

/** Draws what belongs to an element. Must not change the page. */
export function within(sheet: Sheet, of: Element, type: string, draw: () => void): void {
  of.add(sheet.doc.markStructureContent(type));
  draw();
  sheet.doc.endMarkedContent();
}

/** Draws what is no content: rules, running heads, page numbers. */
export function besides(sheet: Sheet, draw: () => void, pagination = false): void {
  sheet.doc.markContent('Artifact', pagination ? { type: 'Pagination' } : { type: 'Layout' });
  draw();
  sheet.doc.endMarkedContent();
}

export type Setting = { size: number; color?: string; align?: 'left' | 'right' };
export const leadingOf = (size: number): number => size * 1.42;
export const measureAt =
  (size: number) =>
  (text: string, face: Face): number =>
    textWidth(text, face, size);

/** Sets one line with its top at `y`; `width` matters for text set to the right. */
export function setLine(
  sheet: Sheet,
  line: Line,
  at: { x: number; y: number; width: number },
  { size, color = INK, align }: Setting,
): void {
  const measure = measureAt(size);
  let x = align === 'right' ? at.x + at.width - widthOf(line, measure) : at.x;
  sheet.doc.fillColor(color);
  for (const [n, { text, face }] of line.entries()) {
    sheet.pen(text, face, { x, y: at.y, size });
    if (n < line.length - 1) x += measure(text, face);
  }
}

/** A thin line across, at the pen. */
export function rule(sheet: Sheet, y: number, from = sheet.left, to = sheet.right, color = '#999999'): void {
  besides(sheet, () => sheet.doc.moveTo(from, y).lineTo(to, y).lineWidth(0.5).strokeColor(color).stroke());
}
