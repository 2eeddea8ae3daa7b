// Writes a paper as a PDF file: text that can be selected, tags, language, embedded letters; equal input gives equal bytes.
import type { PdfPaper } from './content.ts';
import { setBlocks, setHeadOfPaper } from './flow.ts';
import { settable } from './fonts.ts';
import { besides, GRAY, measureAt, newSheet, rule, setLine, type Sheet } from './sheet.ts';
import { wrap } from './wrap.ts';
import type { Written } from './shapes.ts';

/** Sets and closes the file. @throws as `written` does */
export async function write(paper: PdfPaper): Promise<Written> {
  const sheet = newSheet(paper);
  const { doc } = sheet;
  const parts: Buffer[] = [];
  const ended = new Promise<void>((done, failed) => {
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', done);
    doc.on('error', failed);
  });
  const names = (paper.attached ?? []).map(({ name }) => name);
  if (new Set(names).size < names.length) throw new Error('two files of one name travel in one paper, and the first would be lost');
  setHeadOfPaper(sheet, paper);
  setBlocks(sheet, sheet.root, paper.blocks);
  for (const { name, says, bytes, type = 'text/plain' } of paper.attached ?? []) {
    doc.file(Buffer.from(bytes), { name, description: says, type, creationDate: paper.at, modifiedDate: paper.at } as never);
  }
  sheet.root.end();
  setMargins(sheet, paper);
  const pages = doc.bufferedPageRange().count;
  doc.end();
  await ended;
  return { bytes: new Uint8Array(Buffer.concat(parts)), pages, marks: sheet.marks, taken: sheet.taken };
}

const SIZE = 8;
/** As much of a text as fits into one line. */
function short(text: string, width: number): string {
  const lines = wrap([{ text: settable(text) }], width, measureAt(SIZE));
  const first = lines[0]!.map(({ text: piece }) => piece).join('');
  return lines.length > 1 ? `${first.trimEnd()}…` : first;
}

/** Running heads and page numbers, once it is known how many pages there are. */
function setMargins(sheet: Sheet, paper: PdfPaper): void {
  const { start, count } = sheet.doc.bufferedPageRange();
  const width = sheet.right - sheet.left;
  const line = (text: string, y: number, align: 'left' | 'right') =>
    besides(
      sheet,
      () => setLine(sheet, [{ text, face: 'regular' }], { x: sheet.left, y, width }, { size: SIZE, color: GRAY, align }),
      true,
    );
  for (let page = start; page < start + count; page++) {
    sheet.doc.switchToPage(page);
    if (page > start) {
      line(short(`${paper.firm}: ${paper.title}`, width - 20), 38, 'left');
      rule(sheet, 52);
    }
    const foot = sheet.bottom + 18;
    rule(sheet, foot - 4);
    if (paper.foot) line(short(paper.foot, width - 90), foot, 'left');
    line(`Page ${page - start + 1} of ${count}`, foot, 'right');
  }
}
