// Reads a PDF back with a reader of its own: pages, words and where they stand, tags, language, attachments.
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export type Placed = { text: string; left: number; right: number; y: number };
export type ReadPdf = {
  title: string;
  language: string | null;
  tagged: boolean;
  /** Words of each page in the order of reading. */
  pages: string[];
  placed: Placed[][];
  size: [number, number];
  /** Roles of the elements of the whole file, in order. */
  tags: string[];
  attachments: Record<string, Uint8Array>;
};

type Node = { role?: string; children?: Node[] };
const rolesOf = (node: Node | null): string[] =>
  node ? [...(node.role ? [node.role] : []), ...(node.children ?? []).flatMap(rolesOf)] : [];

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const file = await getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 }).promise;
  const { info } = (await file.getMetadata()) as unknown as { info: { Title: string; Language: string | null } };
  const read: ReadPdf = {
    title: info.Title,
    language: info.Language,
    tagged: (await file.getMarkInfo())?.Marked === true,
    pages: [],
    placed: [],
    size: [0, 0],
    tags: [],
    attachments: {},
  };
  for (let number = 1; number <= file.numPages; number++) {
    const page = await file.getPage(number);
    const { items } = await page.getTextContent();
    const texts = items.filter((item) => 'str' in item);
    read.pages.push(texts.map(({ str, hasEOL }) => str + (hasEOL ? '\n' : '')).join(''));
    read.placed.push(
      texts
        .filter(({ str }) => str.trim() !== '')
        .map(({ str, transform, width }) => ({ text: str, left: transform[4], right: transform[4] + width, y: transform[5] })),
    );
    const [, , width, height] = page.view;
    read.size = [width!, height!];
    // The tree of any page holds the elements of the whole file.
    read.tags = rolesOf((await page.getStructTree()) as Node).filter((role) => role !== 'Root');
  }
  const attached = (await file.getAttachments()) as Record<string, { filename: string; content: Uint8Array }> | null;
  for (const one of Object.values(attached ?? {})) read.attachments[one.filename] = one.content;
  await file.loadingTask.destroy();
  return read;
}

/** A text without line breaks and doubled blanks, its letters composed. */
export const flat = (text: string): string => text.replaceAll(/\s+/g, ' ').normalize('NFC');
