// A PDF that was not made by this service.
import PDFDocument from 'pdfkit';

/** US Letter; a page for each of the words, at 72 points from the upper left; `turned`: degrees clockwise by page, counted from 0. */
export async function madeElsewhere(
  words: readonly string[],
  turned: Record<number, number> = {},
  password?: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const doc = new PDFDocument({ size: 'letter', autoFirstPage: false, ...(password ? { userPassword: password } : {}) });
  const parts: Buffer[] = [];
  doc.on('data', (part: Buffer) => parts.push(part));
  const ended = new Promise((done) => doc.on('end', done));
  for (const [at, line] of words.entries()) {
    doc.addPage();
    doc.text(line, 72, 72);
    if (turned[at] !== undefined) (doc.page.dictionary as unknown as { data: Record<string, unknown> }).data['Rotate'] = turned[at];
  }
  doc.end();
  await ended;
  return new Uint8Array(Buffer.concat(parts));
}
