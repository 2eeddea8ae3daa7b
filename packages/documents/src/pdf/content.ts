// What a paper of the firm says, before it has pages.

/** A stretch of words in one face. */
export type Run = { text: string; bold?: boolean; italic?: boolean };
export type Words = string | readonly Run[];

export type Block =
  | { kind: 'heading'; /** 2 is the highest below the title. */ level: 2 | 3 | 4; words: Words }
  | { kind: 'text'; words: Words; small?: boolean }
  /** Stands out in a frame: what nobody may overlook. */
  | { kind: 'notice'; words: Words }
  | { kind: 'list'; /** Number of the first item; null = bullets. */ from: number | null; items: readonly (readonly Block[])[] }
  /** Said in pairs: name, value. */
  | { kind: 'facts'; pairs: readonly (readonly [string, string])[] }
  | Table
  | Bars
  /** A PNG or JPEG picture; `alt` says in words what it shows, `width` is in points, the caption below is never parted from it. */
  | { kind: 'picture'; png: Uint8Array; alt: string; width: number; caption?: string }
  /** Lines drawn with a pen: the path of an SVG `size` units wide and high; `alt` says in words what it shows, `width` is in points. */
  | { kind: 'drawing'; path: string; size: readonly [number, number]; alt: string; width: number }
  /** A page of its own that shows page `at` of another PDF, counted from 0; `alt` says in words what it shows. */
  | { kind: 'taken page'; file: Uint8Array; at: number; size: { width: number; height: number }; alt: string }
  /** `mark` names the page, so that a contents list can tell its number. */
  | { kind: 'new page'; mark?: string };

export type Table = {
  kind: 'table';
  heads: readonly string[];
  rows: readonly (readonly Words[])[];
  /** Columns with amounts, counted from 0: set to the right, never broken. */
  amounts?: readonly number[];
  /** How the width is shared, so that tables below one another line up; by their words where not said. */
  shares?: readonly number[];
};

/** `value` and what may come on top of it (`more`) in one unit; `says` stands above the bar; `alt` says in words what the figure shows. */
export type Bars = { kind: 'bars'; alt: string; bars: readonly { label: string; value: number; more?: number; says: string }[] };

export type PaperSize = 'letter' | 'a4';

export type PdfPaper = {
  title: string;
  /** When what the paper says was so; it becomes the file's date, so that equal input gives equal bytes. */
  at: Date;
  size?: PaperSize;
  firm: string;
  /** Address, phone, license numbers: one line each under the firm's name. */
  firmLines: readonly string[];
  /** A few words left of the page number on every page. */
  foot?: string;
  /** Files that travel inside: what a fingerprint on the paper was taken of. */
  attached?: readonly { name: string; says: string; bytes: Uint8Array; /** Media type; plain text when not said. */ type?: string }[];
  blocks: readonly Block[];
};

/** A written file under the name by which it is kept. */
export type PdfFile = { bytes: Uint8Array; name: string };
