// Everything of one job as one paper: what it is, its contents with pages and fingerprints, what is held back, then part after part.
import type { Block, PdfPaper } from '../pdf/content.ts';

type Attached = NonNullable<PdfPaper['attached']>[number];

export type FilePart = {
  title: string;
  /** SHA-256 of the exact bytes or words that the part shows; null where it is drawn up for this file. */
  sha256: string | null;
  /** The part byte for byte, which travels inside this file. */
  attached?: Attached;
  blocks: readonly Block[];
};
export type HeldBack = { what: string; why: string };

export type JobFilePaper = {
  facts: readonly (readonly [string, string])[];
  parts: readonly FilePart[];
  heldBack: readonly HeldBack[];
  /** Page on which the part at this place begins, counted from 1; 0 while it is not known. */
  pages: readonly number[];
};

export const markOf = (at: number): string => `part ${at + 1}`;

/** No two the same: the part is named before the file, for a second agreement has the name of the first. */
const nameOf = ({ name }: Attached, at: number): string => `part-${at + 1}-${name}`;
export const attachedTo = (parts: readonly FilePart[]): Attached[] =>
  parts.flatMap(({ attached }, at) => (attached ? [{ ...attached, name: nameOf(attached, at) }] : []));

const ABOUT =
  'Made from what is on record; nothing was changed for it. A fingerprint is the SHA-256 of the exact bytes or words on file. What is held back is listed below.';

export const jobFileBlocks = ({ facts, parts, heldBack, pages }: JobFilePaper): Block[] => [
  { kind: 'notice', words: ABOUT },
  { kind: 'facts', pairs: facts },
  { kind: 'heading', level: 2, words: 'Contents' },
  {
    kind: 'table',
    heads: ['Part', 'What', 'Page', 'Fingerprint'],
    rows: parts.map(({ title, sha256, attached }, at) => [
      String(at + 1),
      attached ? `${title}: ${nameOf(attached, at)}, attached to this file` : title,
      String(pages[at] ?? 0),
      sha256 ?? 'drawn up for this file',
    ]),
    amounts: [2],
  },
  { kind: 'heading', level: 2, words: 'What is held back, and why' },
  heldBack.length === 0
    ? { kind: 'text', words: 'Nothing.' }
    : { kind: 'table', heads: ['What', 'Why'], rows: heldBack.map(({ what, why }) => [what, why]) },
  ...parts.flatMap(({ title, blocks }, at): Block[] => [
    { kind: 'new page', mark: markOf(at) },
    { kind: 'heading', level: 2, words: `Part ${at + 1}. ${title}` },
    ...(blocks.length === 0 ? [{ kind: 'text', words: 'Nothing on file.' } as const] : blocks),
  ]),
];
