// The letters of a file that a spreadsheet saved: which ones they are, what parts the cells, and what is no text at all.

/** Letters in which spreadsheets save, by the names that people see there. */
export type Letters = 'UTF-8' | 'UTF-16' | 'Windows-1252';
export type SheetText = { text: string; letters: Letters };

type Start = { bytes: readonly number[]; says: string };
/** First bytes of files that are chosen by mistake (from memory of the formats' published signatures). */
const NO_TEXT: readonly Start[] = [
  {
    bytes: [0x50, 0x4b, 0x03, 0x04],
    says: 'This is a workbook, not a table of text. Open it in the spreadsheet and save the one sheet as CSV; then choose that file.',
  },
  {
    bytes: [0xd0, 0xcf, 0x11, 0xe0],
    says: 'This is an old workbook, not a table of text. Open it in the spreadsheet and save the one sheet as CSV; then choose that file.',
  },
  { bytes: [0x25, 0x50, 0x44, 0x46], says: 'This is a PDF. Choose the table as CSV.' },
  { bytes: [0xff, 0xd8, 0xff], says: 'This is a picture. Choose the table as CSV.' },
  { bytes: [0x89, 0x50, 0x4e, 0x47], says: 'This is a picture. Choose the table as CSV.' },
];

const begins = (bytes: Uint8Array, start: readonly number[]): boolean => start.every((byte, at) => bytes[at] === byte);

/** The text of a file, or why there is none. A byte order mark is no part of the text. */
export function sheetText(bytes: Uint8Array): SheetText | { says: string } {
  const none = NO_TEXT.find((one) => begins(bytes, one.bytes));
  if (none) return { says: none.says };
  const wide = wideLetters(bytes);
  const read: SheetText = wide === null ? narrow(bytes) : { text: new TextDecoder(wide).decode(bytes), letters: 'UTF-16' };
  if (read.text.trim() === '') return { says: 'There is nothing in this file.' };
  const zero = read.text.indexOf('\u0000');
  if (zero < 0) return read;
  const line = read.text.slice(0, zero).split('\n').length;
  return { says: `In line ${line} stands a character that no text has (zero). This is no table of text, or it was damaged on its way.` };
}

/** UTF-16 by its mark; without one when every other byte of the beginning is zero. */
function wideLetters(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (begins(bytes, [0xff, 0xfe])) return 'utf-16le';
  if (begins(bytes, [0xfe, 0xff])) return 'utf-16be';
  const pairs = Math.min(bytes.length >> 1, 100);
  if (pairs < 2) return null;
  let [even, odd] = [0, 0];
  for (let at = 0; at < pairs; at++) {
    if (bytes[2 * at] === 0) even += 1;
    if (bytes[2 * at + 1] === 0) odd += 1;
  }
  if (odd > pairs * 0.8 && even === 0) return 'utf-16le';
  return even > pairs * 0.8 && odd === 0 ? 'utf-16be' : null;
}

function narrow(bytes: Uint8Array): SheetText {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), letters: 'UTF-8' };
  } catch {
    return { text: windowsText(bytes), letters: 'Windows-1252' };
  }
}

/** What Windows-1252 has from 0x80 to 0x9F (WHATWG Encoding, index windows-1252); not every Node knows it. The rest is as in Latin-1. */
const WINDOWS = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

const windowsText = (bytes: Uint8Array): string =>
  new TextDecoder('latin1').decode(bytes).replace(/[\u0080-\u009f]/g, (letter) => WINDOWS[letter.charCodeAt(0) - 0x80]!);

const PARTINGS = [',', ';', '\t', '|'] as const;
const LINES_LOOKED_AT = 20;

/** What parts the cells, and where the table begins: a first line "sep=;" says it, else the character that stands equally often in most of the first lines. */
export function partingOf(text: string): { parting: string; from: number } {
  const said = /^sep=(.)\r?\n/i.exec(text);
  if (said) return { parting: said[1]!, from: said[0].length };
  const lines = firstLines(text);
  const scored = PARTINGS.map((parting) => {
    const times = lines.map((line) => line.split(parting).length - 1);
    const [head = 0] = times;
    return { parting, score: head === 0 ? 0 : times.filter((n) => n === head).length * 1000 + head };
  });
  const best = scored.reduce((a, b) => (b.score > a.score ? b : a));
  return { parting: best.score === 0 ? ',' : best.parting, from: 0 };
}

/** The first lines without what stands in quotation marks, which may hold any character. */
function firstLines(text: string): string[] {
  const bare = text
    .slice(0, 20_000)
    .replace(/"(?:[^"]|"")*"/g, '')
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '');
  return bare.slice(0, LINES_LOOKED_AT);
}
