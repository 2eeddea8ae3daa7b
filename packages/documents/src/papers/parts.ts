// A paper in parts: what is said in pairs, in a table, in words.
import type { Block } from '../pdf/content.ts';

export type PaperPart = {
  heading?: string;
  /** What is said in pairs: name, value. */
  pairs?: readonly (readonly [string, string])[];
  table?: {
    heads: readonly string[];
    rows: readonly (readonly string[])[];
    /** Columns with amounts, counted from 0. */ amounts?: readonly number[];
  };
  /** Words; line breaks are kept. */
  text?: string;
};

export const partBlocks = ({ heading, pairs, table, text }: PaperPart): Block[] => [
  ...(heading === undefined ? [] : [{ kind: 'heading', level: 2, words: heading } as const]),
  ...(pairs ? [{ kind: 'facts', pairs } as const] : []),
  ...(table ? [{ kind: 'table', ...table } as const] : []),
  ...(text === undefined ? [] : [{ kind: 'text', words: text } as const]),
];
