// A paper in parts: what is said in pairs, in a table, in words.
import type { Block, Words } from '../pdf/content.ts';
import { markdownBlocks } from '../pdf/markdown.ts';

export type PaperPart = {
  heading?: string;
  /** What is said in pairs: name, value. */
  pairs?: readonly (readonly [string, string])[];
  table?: {
    heads: readonly string[];
    rows: readonly (readonly Words[])[];
    /** Columns with amounts, counted from 0. */ amounts?: readonly number[];
  };
  /** Words; line breaks are kept. */
  text?: string;
  /** Words with Markdown in them, like those of an agreement. */
  markdown?: string;
};

export const partBlocks = ({ heading, pairs, table, text, markdown }: PaperPart): Block[] => [
  ...(heading === undefined ? [] : [{ kind: 'heading', level: 2, words: heading } as const]),
  ...(pairs ? [{ kind: 'facts', pairs } as const] : []),
  ...(table ? [{ kind: 'table', ...table } as const] : []),
  ...(text === undefined ? [] : [{ kind: 'text', words: text } as const]),
  ...(markdown === undefined ? [] : markdownBlocks(markdown)),
];

/** Files that travel in one paper, no two of one name: the second of a name is numbered, `name-2.pdf`. */
export function namedApart<F extends { name: string }>(files: readonly F[]): F[] {
  const seen = new Map<string, number>();
  return files.map((file) => {
    const times = (seen.get(file.name) ?? 0) + 1;
    seen.set(file.name, times);
    return times === 1 ? file : { ...file, name: file.name.replace(/(\.[^.]*)?$/, `-${times}$1`) };
  });
}
