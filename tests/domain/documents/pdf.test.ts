// Papers read back from their bytes. Tags: ISO 32000-1, 14.8; page sizes: US Letter 612 by 792 points, A4 by ISO 216 (210 by 297 mm).
import { describe, expect, it } from 'vitest';
import type { Block, PdfPaper } from '@backsight/documents/pdf/content';
import { namedApart } from '@backsight/documents/papers/parts';
import { markdownBlocks } from '@backsight/documents/pdf/markdown';
import { wrap, widthOf } from '@backsight/documents/pdf/wrap';
import { pdfOf } from '@backsight/documents/pdf/write';
import { flat, readPdf } from '../../support/pdf.ts';
import { picture } from '../../support/pictures.ts';

const paper = (blocks: readonly Block[], more: Partial<PdfPaper> = {}): PdfPaper => ({
  title: 'Invoice 1042',
  at: new Date('2026-05-13T16:30:00Z'),
  firm: 'Hollin Grebe House Inspection',
  firmLines: ['12 Harbor Street, Port Tamarack', '(920) 555-0100', 'Licensed home inspectors: Ruth 1042-106'],
  blocks,
  ...more,
});
const text = (words: string): Block => ({ kind: 'text', words });
const read = async (blocks: readonly Block[], more: Partial<PdfPaper> = {}) => readPdf(await pdfOf(paper(blocks, more)));
const rows = (n: number) => Array.from({ length: n }, (_, at) => [`Line ${at + 1}`, `$${at + 1}.00`]);

describe('a paper', () => {
  it('carries title, language, tags, the firm on top and the page number at the foot', async () => {
    const back = await read([
      { kind: 'heading', level: 2, words: 'Scope' },
      text('What we look at.'),
      { kind: 'list', from: 1, items: [[text('Roof')], [text('Basement')]] },
    ]);
    expect(back).toMatchObject({ title: 'Invoice 1042', language: 'en-US', tagged: true });
    for (const words of ['Hollin Grebe House Inspection', '12 Harbor Street', '555-0100', '1042-106', 'What we look at.', 'Page 1 of 1'])
      expect(back.pages[0]).toContain(words);
    for (const tag of ['Document', 'H1', 'H2', 'P', 'L', 'LI', 'Lbl', 'LBody']) expect(back.tags).toContain(tag);
  });
  it('keeps headings on the page of the bars that they are about, wherever the page ends', async () => {
    const back = await read(
      Array.from({ length: 6 }, (_, n): Block[] => [
        { kind: 'new page' },
        ...Array.from({ length: 20 + 2 * n }, () => text('Something else.')),
        { kind: 'heading', level: 2, words: `Head ${n} over` },
        { kind: 'heading', level: 3, words: `Head ${n} of` },
        { kind: 'bars', alt: 'Bars', bars: [{ label: `bar ${n}.`, value: 1, says: '1' }] },
      ]).flat(),
    );
    const placed = Array.from({ length: 6 }, (_, n) =>
      [`Head ${n} over`, `Head ${n} of`, `bar ${n}.`].map((words) => back.pages.findIndex((page) => page.includes(words))),
    );
    expect(placed.filter(([over, of, bar]) => over !== bar || of !== bar)).toEqual([]);
    expect(new Set(placed.map(([, , bar]) => bar! >= 0))).toEqual(new Set([true]));
  });
  it('has the same bytes for the same input, and others for another', async () => {
    const one = await pdfOf(paper([text('As found.')]));
    expect(Buffer.from(await pdfOf(paper([text('As found.')]))).equals(Buffer.from(one))).toBe(true);
    expect(Buffer.from(await pdfOf(paper([text('As left.')]))).equals(Buffer.from(one))).toBe(false);
  });
  it('keeps names with accents, Greek and Cyrillic letters, and tells what no letter is there for', async () => {
    const name = 'Zoë Ångström-Nuñez, Łukasz Żółć, Nguyễn Thị Hồng, Κώστας, Фёдор';
    const back = await read([text(`${name}, 张`), text('a\u0000b\u0007c'), text('e\u0301')]);
    expect(flat(back.pages[0]!)).toContain(`${name}, [U+5F20]`);
    expect(back.pages[0]).toContain('abc');
    expect(back.pages[0]).toContain('é');
  });
  it.each([
    ['letter', 612, 792],
    ['a4', 595.28, 841.89],
  ] as const)('leaves margins on %s that the other size keeps too', async (size, width, height) => {
    const back = await read([text('word '.repeat(3000)), { kind: 'table', heads: ['For', 'Amount'], rows: rows(90), amounts: [1] }], {
      size,
    });
    expect(back.size.map(Math.round)).toEqual([width, height].map(Math.round));
    expect(back.pages.length).toBeGreaterThan(4);
    for (const page of back.placed)
      for (const { left, right, y } of page) {
        expect(left).toBeGreaterThanOrEqual(36);
        expect(right).toBeLessThanOrEqual(Math.min(width, 595.28) - 36 + (width - Math.min(width, 595.28)));
        expect(y).toBeGreaterThanOrEqual(36);
        expect(y).toBeLessThanOrEqual(height - 36);
      }
  });
  it('breaks an invoice of 120 lines over pages, with its heads again on each and no line lost', async () => {
    const back = await read([{ kind: 'table', heads: ['For', 'Amount'], rows: rows(120), amounts: [1] }]);
    expect(back.pages.length).toBeGreaterThan(2);
    back.pages.forEach((page, at) => {
      expect(page).toMatch(/For\s*Amount/);
      expect(page).toContain(`Page ${at + 1} of ${back.pages.length}`);
    });
    const all = flat(back.pages.join(' '));
    for (let line = 1; line <= 120; line++) expect(all).toMatch(new RegExp(`Line ${line}\\s+\\$${line}\\.00`));
    expect(back.tags.filter((tag) => tag === 'TD')).toHaveLength(240);
    expect(back.tags.filter((tag) => tag === 'TH')).toHaveLength(2);
  });
  it('cuts a row that no page holds, and a word wider than the line, losing nothing', async () => {
    const back = await read([{ kind: 'table', heads: ['Long', 'Short'], rows: [['x'.repeat(9000), 'y']] }]);
    expect(back.pages.join('').match(/x/g)).toHaveLength(9000);
    expect(back.pages.length).toBeGreaterThan(1);
  });
  it('sets a long word that a line ends with, like a fingerprint before more words', async () => {
    const back = await read([text(`${'f0'.repeat(32)} ${'word '.repeat(20)}`)]);
    expect(back.pages[0]).toContain('f0'.repeat(32));
  });
  it('carries files inside, byte for byte', async () => {
    const bytes = new TextEncoder().encode('The words, exactly.\n');
    const back = await read([text('See inside.')], { attached: [{ name: 'agreement.txt', says: 'words', bytes }] });
    expect(Buffer.from(back.attachments['agreement.txt']!).toString()).toBe('The words, exactly.\n');
  });
  it('never loses one of two files of one name', async () => {
    const file = (words: string) => ({ name: 'signed.pdf', says: words, bytes: new TextEncoder().encode(words) });
    await expect(pdfOf(paper([], { attached: [file('old'), file('new')] }))).rejects.toThrow('two files of one name');
    const back = await read([text('See inside.')], { attached: namedApart([file('old'), file('new')]) });
    expect(
      Object.entries(back.attachments)
        .map(([name, bytes]) => [name, Buffer.from(bytes).toString()])
        .toSorted(),
    ).toEqual([
      ['signed-2.pdf', 'new'],
      ['signed.pdf', 'old'],
    ]);
  });
  it('never parts a picture from its caption, however high it is', async () => {
    const back = await read([
      { kind: 'picture', png: await picture('png', 1, 10, 40), alt: 'a chimney', width: 500, caption: 'The chimney.' },
    ]);
    expect(back.pages.map((words) => words.includes('The chimney.'))).toEqual([false, true]);
  });
  it('refuses what is no picture', async () => {
    await expect(pdfOf(paper([{ kind: 'picture', png: new Uint8Array([1, 2, 3]), alt: 'a signature', width: 100 }]))).rejects.toThrow();
  });
});

describe('wrap', () => {
  const letters = (t: string) => t.length;
  it('puts words into lines no wider than asked, and keeps them apart', () => {
    const lines = wrap([{ text: 'one two three four' }], 9, letters);
    expect(lines.map((line) => line.map(({ text: words }) => words).join(''))).toEqual(['one two ', 'three ', 'four']);
    for (const line of lines) expect(widthOf(line, letters)).toBeLessThanOrEqual(9);
  });
  it('keeps faces inside one word together, and breaks where the writer did', () => {
    expect(wrap([{ text: 'a' }, { text: 'b', bold: true }, { text: 'c\nd' }], 9, letters)).toEqual([
      [
        { text: 'a', face: 'regular' },
        { text: 'b', face: 'bold' },
        { text: 'c ', face: 'regular' },
      ],
      [{ text: 'd', face: 'regular' }],
    ]);
  });
  it('makes one empty line of nothing', () => expect(wrap([{ text: '' }], 9, letters)).toEqual([[]]));
});

describe('Markdown as blocks', () => {
  it('knows headings, emphasis, lists, tables and links', () => {
    expect(
      markdownBlocks(
        '# Scope\n\nAs **found** and *seen*.\n\n3. Roof\n4. Attic\n\n| What | Fee |\n| --- | ---: |\n| Radon | $180 |\n\n[Rules](https://example.test)',
      ),
    ).toEqual([
      { kind: 'heading', level: 2, words: [{ text: 'Scope' }] },
      {
        kind: 'text',
        words: [{ text: 'As ' }, { text: 'found', bold: true }, { text: ' and ' }, { text: 'seen', italic: true }, { text: '.' }],
      },
      { kind: 'list', from: 3, items: [[{ kind: 'text', words: [{ text: 'Roof' }] }], [{ kind: 'text', words: [{ text: 'Attic' }] }]] },
      { kind: 'table', heads: ['What', 'Fee'], rows: [[[{ text: 'Radon' }], [{ text: '$180' }]]], amounts: [1] },
      { kind: 'text', words: [{ text: 'Rules' }, { text: ' (https://example.test)' }] },
    ]);
  });
  it('skips no level of heading', () =>
    expect(markdownBlocks('## A\n\n#### B').map((block) => block.kind === 'heading' && block.level)).toEqual([2, 3]));
  it('shows HTML as it was typed', () => {
    const [block] = markdownBlocks('<script>alert(1)</script>');
    expect(JSON.stringify(block)).toContain('<script>alert(1)</script>');
  });
  it('says nothing of an empty text', () => expect(markdownBlocks('')).toEqual([]));
});
