// A copy of a paper that says on every page that it is not to leave yet.

const SIZE = 9;
const UP = 14;

/** The same pages with `words` at the top of each; the paper itself stays as it is. */
export async function markedCopy(bytes: Uint8Array, words: string): Promise<Uint8Array> {
  const { PDFDocument, rgb, StandardFonts } = await import('@cantoo/pdf-lib'); // dear, and rarely needed
  const copy = await PDFDocument.load(bytes, { updateMetadata: false });
  const font = await copy.embedFont(StandardFonts.HelveticaBold);
  for (const page of copy.getPages()) {
    const { width, height } = page.getSize();
    page.drawText(words, {
      x: (width - font.widthOfTextAtSize(words, SIZE)) / 2,
      y: height - UP,
      size: SIZE,
      font,
      color: rgb(0.6, 0.1, 0),
    });
  }
  return copy.save({ useObjectStreams: false, updateFieldAppearances: false, addDefaultPage: false });
}
