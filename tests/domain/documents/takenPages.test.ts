// Pages of other PDFs inside one of ours: what is shown where, what cannot be read. Turning of pages: ISO 32000-1, 7.7.3.3 (clockwise).
import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import type { Block, PdfPaper } from '@backsight/documents/pdf/content';
import { lookAt, withTakenPages } from '@backsight/documents/pdf/takenPages';
import { written } from '@backsight/documents/pdf/write';
import { flat, readPdf } from '../../support/pdf.ts';
import { madeElsewhere } from '../../support/otherPdf.ts';

const PAPER: PdfPaper = { title: 'File', at: new Date('2026-05-13T16:30:00Z'), firm: 'Firm', firmLines: [], blocks: [] };

async function fileWith(other: Uint8Array) {
  const looked = await lookAt(other);
  if (!looked.ok) throw new Error(looked.why);
  const taken = looked.pages.map((size, at): Block => ({ kind: 'taken page', file: other, at, size, alt: `Their page ${at + 1}` }));
  const end: Block[] = [
    { kind: 'new page', mark: 'end' },
    { kind: 'text', words: 'After them.' },
  ];
  const file = await written({
    ...PAPER,
    attached: [{ name: 'their.pdf', says: 'theirs', bytes: other, type: 'application/pdf' }],
    blocks: [{ kind: 'text', words: 'Before them.' }, ...taken, ...end],
  });
  return { looked, file, bytes: await withTakenPages(file.bytes, file.taken) };
}

describe('pages of another file', () => {
  it('stand on pages of ours, numbered with them, turned as they are shown, and leave tags and the original alone', async () => {
    const other = await madeElsewhere(['Roof: worn', 'Attic: dry', 'Wide drawing'], { 2: 90 });
    const { looked, file, bytes } = await fileWith(other);
    expect(looked.pages).toEqual([
      { width: 612, height: 792 },
      { width: 612, height: 792 },
      { width: 792, height: 612 },
    ]);
    const back = await readPdf(bytes);
    expect([back.pages.length, file.pages, file.marks.get('end')]).toEqual([5, 5, 5]);
    for (const [at, words] of ['Roof: worn', 'Attic: dry', 'Wide drawing'].entries()) {
      expect(flat(back.pages[at + 1]!)).toContain(words);
      expect(flat(back.pages[at + 1]!)).toContain(`Page ${at + 2} of 5`);
    }
    // Their words stand at (72, 72) from the upper left of a page of 612 by 792, which is made smaller to fit between our margins.
    // Below the line of small words that names the page: its height is what limits it.
    const scale = (708 - 64 - 8.5 * 1.42 - 5) / 792;
    const on = (page: number, words: string) => back.placed[page]!.find(({ text }) => text.includes(words))!;
    expect(on(1, 'Roof').left).toBeCloseTo(60 + 72 * scale, 0);
    // Turned clockwise, what stood at the upper left stands at the upper right and reads downward.
    const wide = 492 / 792;
    expect(on(3, 'Wide').left).toBeGreaterThan(60 + (792 - 100) * wide);
    expect(Buffer.from(back.attachments['their.pdf']!).equals(Buffer.from(other))).toBe(true);
    expect([back.tagged, back.language, back.title]).toEqual([true, 'en-US', 'File']);
    expect(
      Buffer.from(bytes)
        .toString('latin1')
        .match(/\/S \/Figure/g),
    ).toHaveLength(3);
    expect(Buffer.from((await fileWith(other)).bytes).equals(Buffer.from(bytes))).toBe(true);
  });
  it('that are encrypted or broken are told apart, and a file without them stays as it is', async () => {
    expect(await lookAt(await madeElsewhere(['Secret'], {}, 'pass word'))).toEqual({ ok: false, why: 'is encrypted' });
    const whole = await madeElsewhere(['Cut off']);
    for (const bytes of [new TextEncoder().encode('%PDF-1.7 the report'), whole.slice(0, 300), new Uint8Array(0)])
      expect(await lookAt(bytes)).toEqual({ ok: false, why: 'is broken or is none that can be read' });
    expect(await withTakenPages(whole, [])).toBe(whole);
  });
  it('may be empty', async () => {
    const empty = new PDFDocument({ size: [300, 200], autoFirstPage: true });
    const parts: Buffer[] = [];
    empty.on('data', (part: Buffer) => parts.push(part));
    const ended = new Promise((done) => empty.on('end', done));
    empty.end();
    await ended;
    const { bytes } = await fileWith(new Uint8Array(Buffer.concat(parts)));
    expect(flat((await readPdf(bytes)).pages[1]!)).toContain('Page 2 of 3');
  });
});
