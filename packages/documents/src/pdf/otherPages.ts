// Pages of a PDF that somebody else made: looked at before, and shown on pages of our own afterwards.
import { PDFDict, PDFDocument, PDFName, type PDFPage, type PDFRef } from '@cantoo/pdf-lib';
import type { Looked, PageSize, TakenPage } from './shapes.ts';

const ENCRYPTED = 'is encrypted';
const BROKEN = 'is broken or is none that can be read';

/** The pages as a reader shows them, turned ones turned; points. */
export async function lookAtPages(bytes: Uint8Array): Promise<Looked> {
  try {
    const pages = (await opened(bytes)).getPages().map(shownSize);
    const whole = pages.length > 0 && pages.every(({ width, height }) => width > 0 && height > 0);
    return whole ? { ok: true, pages } : { ok: false, why: BROKEN };
  } catch (error) {
    return { ok: false, why: error instanceof Error && /encrypt|password/i.test(error.message) ? ENCRYPTED : BROKEN };
  }
}

/** The answers typed into a form belong to the page: they are drawn into it where that can be done. */
async function opened(bytes: Uint8Array): Promise<PDFDocument> {
  const load = () => PDFDocument.load(bytes, { updateMetadata: false });
  const file = await load();
  if (file.getForm().getFields().length === 0) return file;
  try {
    file.getForm().flatten();
    await file.flush();
    return file;
  } catch {
    return load();
  }
}

type Box = ReturnType<PDFPage['getCropBox']>;
const quarterTurns = (page: PDFPage): number => (((page.getRotation().angle / 90) % 4) + 4) % 4;

function shownSize(page: PDFPage): PageSize {
  const { width, height } = page.getCropBox();
  return quarterTurns(page) % 2 === 0 ? { width, height } : { width: height, height: width };
}

type Matrix = [number, number, number, number, number, number];

/** From the box of a page to the unit square that a picture fills (ISO 32000-1, 8.9.5 and 8.10.1), turned as the page is shown: clockwise. */
function toUnit({ x, y, width: w, height: h }: Box, turns: number): Matrix {
  const all: Matrix[] = [
    [1 / w, 0, 0, 1 / h, -x / w, -y / h],
    [0, -1 / w, 1 / h, 0, -y / h, 1 + x / w],
    [-1 / w, 0, 0, -1 / h, 1 + x / w, 1 + y / h],
    [0, 1 / w, -1 / h, 0, 1 + y / h, -x / w],
  ];
  return all[turns]!;
}

/** Puts the pages into the places that were left for them: the one picture of each page. Equal input gives equal bytes. */
export async function putPages(file: Uint8Array, taken: readonly TakenPage[]): Promise<Uint8Array> {
  const ours = await PDFDocument.load(file, { updateMetadata: false });
  for (const from of new Set(taken.map((one) => one.from))) {
    const theirs = await opened(from);
    for (const { page, at } of taken.filter((one) => one.from === from)) {
      const shown = theirs.getPage(at);
      const place = placeOn(ours.getPage(page - 1));
      const before = place.in.get(place.key) as PDFRef;
      place.in.set(place.key, await pictureOf(ours, shown));
      ours.context.delete(before);
    }
  }
  return ours.save({ useObjectStreams: false, updateFieldAppearances: false, addDefaultPage: false });
}

/** @throws Error where the page holds no picture to be replaced */
function placeOn(page: PDFPage): { in: PDFDict; key: PDFName } {
  const pictures = page.node.Resources()?.lookupMaybe(PDFName.of('XObject'), PDFDict);
  const key = pictures?.keys()[0];
  if (!pictures || !key) throw new Error('no place was left on the page');
  return { in: pictures, key };
}

async function pictureOf(ours: PDFDocument, shown: PDFPage): Promise<PDFRef> {
  const box = shown.getCropBox();
  if (!shown.node.Contents())
    return ours.context.register(ours.context.flateStream('', { Type: 'XObject', Subtype: 'Form', BBox: [0, 0, 1, 1] }));
  const edges = { left: box.x, bottom: box.y, right: box.x + box.width, top: box.y + box.height };
  const made = await ours.embedPage(shown, edges, toUnit(box, quarterTurns(shown)));
  await made.embed();
  return made.ref;
}
