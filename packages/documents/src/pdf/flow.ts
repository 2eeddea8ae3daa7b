// Sets the blocks of a paper one below the other, each tagged as what it is (ISO 32000-1, 14.8.4).
import { barsHeight, drawBars } from './bars.ts';
import type { Bars, Block, Words } from './content.ts';
import { settable } from './fonts.ts';
import { besides, element, GRAY, leadingOf, measureAt, nextPage, room, rule, setLine, within, type Element, type Sheet } from './sheet.ts';
import { setTable } from './table.ts';
import { runsOf, wrap, type Face, type Line } from './wrap.ts';

const BODY = 10.5;
const SMALL = 8.5;
/** Points below a figure. */
const GAP = 6;
const HEADINGS = { 2: 13, 3: 11.5, 4: 10.5 } as const;
const INDENT = 18;

export type Setting = { size: number; x: number; width: number; face?: Face; color?: string };

export const linesOf = (words: Words, { size, width, face }: Setting): Line[] =>
  wrap(
    runsOf(words, face).map((run) => ({ ...run, text: settable(run.text) })),
    width,
    measureAt(size),
  );

/** Sets words over as many pages as they take; never leaves a single first line at the foot. */
export function setWords(sheet: Sheet, of: Element, type: string, words: Words, setting: Setting): void {
  const lines = linesOf(words, setting);
  const { size, x, width, color } = setting;
  const leading = leadingOf(size);
  room(sheet, Math.min(lines.length, 2) * leading);
  for (let at = 0; at < lines.length;) {
    const fit = Math.max(1, Math.floor((sheet.bottom - sheet.y) / leading + 1e-6));
    const now = lines.slice(at, at + fit);
    within(sheet, of, type, () =>
      now.forEach((line, down) =>
        setLine(sheet, line, { x, y: sheet.y + down * leading, width }, color === undefined ? { size } : { size, color }),
      ),
    );
    sheet.y += now.length * leading;
    at += now.length;
    if (at < lines.length) nextPage(sheet);
  }
}

const body = (sheet: Sheet, inset: number, size = BODY): Setting => ({
  size,
  x: sheet.left + inset,
  width: sheet.right - sheet.left - inset,
});

function setHeading(sheet: Sheet, parent: Element, block: Extract<Block, { kind: 'heading' }>): void {
  const size = HEADINGS[block.level];
  sheet.y += 8;
  room(sheet, leadingOf(size) * 2 + leadingOf(BODY) * 2);
  const of = element(sheet, parent, `H${block.level}`);
  setWords(sheet, of, `H${block.level}`, block.words, { ...body(sheet, 0, size), face: 'bold' });
  sheet.y += 2;
}

function setText(sheet: Sheet, parent: Element, words: Words, inset: number, small = false): void {
  const size = small ? SMALL : BODY;
  setWords(sheet, element(sheet, parent, 'P'), 'P', words, { ...body(sheet, inset, size), ...(small ? { color: GRAY } : {}) });
  sheet.y += 5;
}

function setNotice(sheet: Sheet, parent: Element, words: Words): void {
  const setting = { ...body(sheet, 8), face: 'bold' as const, width: sheet.right - sheet.left - 16 };
  const height = linesOf(words, setting).length * leadingOf(BODY) + 10;
  room(sheet, height);
  besides(sheet, () =>
    sheet.doc
      .rect(sheet.left, sheet.y, sheet.right - sheet.left, height)
      .lineWidth(1)
      .strokeColor('#333333')
      .stroke(),
  );
  sheet.y += 5;
  setWords(sheet, element(sheet, parent, 'P'), 'P', words, setting);
  sheet.y += 11;
}

function setList(sheet: Sheet, parent: Element, list: Extract<Block, { kind: 'list' }>, inset: number): void {
  const of = element(sheet, parent, 'L');
  list.items.forEach((blocks, at) => {
    const item = element(sheet, of, 'LI');
    room(sheet, leadingOf(BODY) * 2);
    const label = list.from === null ? '•' : `${list.from + at}.`;
    const lbl = element(sheet, item, 'Lbl');
    within(sheet, lbl, 'Lbl', () =>
      setLine(sheet, [{ text: label, face: 'regular' }], { x: sheet.left + inset + 2, y: sheet.y, width: INDENT }, { size: BODY }),
    );
    const lBody = element(sheet, item, 'LBody');
    for (const block of blocks) setBlock(sheet, lBody, block, inset + INDENT);
    sheet.y -= 2;
  });
  sheet.y += 4;
}

/** Pairs as a table without lines: the name is the head of its row. */
function setFacts(sheet: Sheet, parent: Element, pairs: readonly (readonly [string, string])[]): void {
  const of = element(sheet, parent, 'Table');
  const wide = (sheet.right - sheet.left) * 0.3;
  const name: Setting = { size: BODY, x: sheet.left, width: wide - 10, color: GRAY };
  const value: Setting = { size: BODY, x: sheet.left + wide, width: sheet.right - sheet.left - wide };
  for (const [left, right] of pairs) {
    const row = element(sheet, of, 'TR');
    room(sheet, Math.min(4, Math.max(linesOf(left, name).length, linesOf(right, value).length)) * leadingOf(BODY));
    const [page, y] = [sheet.doc.page, sheet.y];
    setWords(sheet, element(sheet, row, 'TH', 'Row'), 'TH', left, name);
    const under = sheet.y;
    if (sheet.doc.page === page) sheet.y = y;
    setWords(sheet, element(sheet, row, 'TD'), 'TD', right, value);
    if (sheet.doc.page === page) sheet.y = Math.max(sheet.y, under);
    sheet.y += 2;
  }
  sheet.y += 6;
}

/** What pdfkit can do besides its published types: a picture opened ahead tells its size in pixels. */
type Images = { openImage: (bytes: Buffer) => { width: number; height: number } };

/** @throws Error where the bytes are no PNG */
function setPicture(sheet: Sheet, parent: Element, { png, alt, width, caption }: Extract<Block, { kind: 'picture' }>): void {
  const image = (sheet.doc as unknown as Images).openImage(Buffer.from(png));
  const scale = Math.min(width, sheet.right - sheet.left) / image.width;
  const below = caption ? linesOf(caption, body(sheet, 0, SMALL)).length * leadingOf(SMALL) + GAP : 0;
  const fit = Math.min(scale, (sheet.bottom - sheet.top - below) / image.height);
  room(sheet, image.height * fit + below);
  setFigure(sheet, parent, alt, [image.width * fit, image.height * fit], ([width, height]) =>
    sheet.doc.image(image as unknown as string, sheet.left, sheet.y, { width, height }),
  );
  if (caption) setText(sheet, parent, caption, 0, true);
}

/** One gray pixel, in the place of a page that is put in when the file is written. */
const PIXEL = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==', 'base64');

/** As large as the margins let it be, in a thin frame. */
function setTakenPage(sheet: Sheet, parent: Element, { file, at, size, alt }: Extract<Block, { kind: 'taken page' }>): void {
  if (sheet.y > sheet.top) nextPage(sheet);
  setText(sheet, parent, alt, 0, true);
  const scale = Math.min((sheet.right - sheet.left) / size.width, (sheet.bottom - sheet.y) / size.height);
  const [width, height] = [size.width * scale, size.height * scale];
  sheet.taken.push({ page: sheet.doc.bufferedPageRange().count, from: file, at });
  besides(sheet, () => sheet.doc.rect(sheet.left, sheet.y, width, height).lineWidth(0.5).strokeColor('#999999').stroke());
  setFigure(sheet, parent, alt, [width, height], () => sheet.doc.image(PIXEL, sheet.left, sheet.y, { width, height }));
}

/** Lines of a pen on a baseline of their own. */
function setDrawing(sheet: Sheet, parent: Element, { path, size, alt, width }: Extract<Block, { kind: 'drawing' }>): void {
  const scale = width / size[0];
  setFigure(sheet, parent, alt, [width, size[1] * scale], () => {
    sheet.doc.save().translate(sheet.left, sheet.y).scale(scale);
    sheet.doc.path(path).lineWidth(3).lineCap('round').lineJoin('round').strokeColor('#111111').stroke();
    sheet.doc.restore();
  });
}

function setBars(sheet: Sheet, parent: Element, block: Bars): void {
  const width = sheet.right - sheet.left;
  setFigure(sheet, parent, block.alt, [width, barsHeight], () => drawBars(sheet, block, width));
}

type Extent = [width: number, height: number];

/** What is looked at and not read, with the words that stand in for it. */
function setFigure(sheet: Sheet, parent: Element, alt: string, extent: Extent, draw: (extent: Extent) => void): void {
  room(sheet, extent[1]);
  const figure = sheet.doc.struct('Figure', {
    alt: settable(alt),
    bbox: [sheet.left, sheet.y, sheet.left + extent[0], sheet.y + extent[1]],
    placement: 'Block',
  } as PDFKit.Mixins.StructureElementOptions);
  parent.add(figure);
  within(sheet, figure, 'Figure', () => draw(extent));
  sheet.y += extent[1] + GAP;
}

function setBlock(sheet: Sheet, parent: Element, block: Block, inset = 0): void {
  switch (block.kind) {
    case 'heading':
      return setHeading(sheet, parent, block);
    case 'text':
      return setText(sheet, parent, block.words, inset, block.small);
    case 'notice':
      return setNotice(sheet, parent, block.words);
    case 'list':
      return setList(sheet, parent, block, inset);
    case 'facts':
      return setFacts(sheet, parent, block.pairs);
    case 'table':
      setTable(sheet, parent, block);
      sheet.y += 8;
      return;
    case 'bars':
      return setBars(sheet, parent, block);
    case 'picture':
      return setPicture(sheet, parent, block);
    case 'drawing':
      return setDrawing(sheet, parent, block);
    case 'taken page':
      return setTakenPage(sheet, parent, block);
    case 'new page':
      if (sheet.y > sheet.top) nextPage(sheet);
      if (block.mark !== undefined) sheet.marks.set(block.mark, sheet.doc.bufferedPageRange().count);
  }
}

/** All blocks of a paper; headings stand on the page of the bars that they are about. */
export function setBlocks(sheet: Sheet, parent: Element, blocks: readonly Block[]): void {
  for (const [at, block] of blocks.entries()) {
    if (block.kind === 'heading' && blocks[at - 1]?.kind !== 'heading') room(sheet, headedBars(blocks.slice(at)));
    setBlock(sheet, parent, block);
  }
}

/** Points that headings and the bars right below them take; 0 where something else follows. */
function headedBars(blocks: readonly Block[]): number {
  const next = blocks.findIndex(({ kind }) => kind !== 'heading');
  return blocks[next]?.kind === 'bars' ? next * (10 + leadingOf(HEADINGS[2])) + barsHeight : 0;
}

/** The firm's name and lines on top of the first page, and the title. */
export function setHeadOfPaper(sheet: Sheet, paper: { firm: string; firmLines: readonly string[]; title: string }): void {
  sheet.y = 44;
  const div = element(sheet, sheet.root, 'Div');
  setWords(sheet, element(sheet, div, 'P'), 'P', paper.firm, { ...body(sheet, 0, 13), face: 'bold' });
  for (const line of paper.firmLines) setWords(sheet, element(sheet, div, 'P'), 'P', line, { ...body(sheet, 0, SMALL), color: GRAY });
  sheet.y += 4;
  rule(sheet, sheet.y);
  sheet.y += 14;
  setWords(sheet, element(sheet, sheet.root, 'H1'), 'H1', paper.title, { ...body(sheet, 0, 17), face: 'bold' });
  sheet.y += 6;
}
