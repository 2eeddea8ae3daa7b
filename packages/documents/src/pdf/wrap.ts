// Breaks words into lines of a given width. Knows nothing of PDF: how wide a text is comes as a function.
import type { Run, Words } from './content.ts';

export type Face = 'regular' | 'bold' | 'italic';
export type Piece = { text: string; face: Face };
export type Line = readonly Piece[];
/** Width in points of a text in a face. */
export type Measure = (text: string, face: Face) => number;

export const faceOf = ({ bold, italic }: Run): Face => (bold ? 'bold' : italic ? 'italic' : 'regular');
export const runsOf = (words: Words, face?: Face): Run[] =>
  (typeof words === 'string' ? [{ text: words }] : [...words]).map((run) => (face === 'bold' ? { ...run, bold: true } : run));

type Word = Piece & { /** A blank stands before it. */ apart: boolean; newline: boolean };

/** Words of all runs in order; a newline inside a run begins a new line. */
function wordsOf(runs: readonly Run[]): Word[] {
  const words: Word[] = [];
  let [apart, newline] = [false, false];
  for (const run of runs) {
    for (const part of run.text.split(/([ \n\t\r]+)/)) {
      if (part === '') continue;
      if (/^[ \n\t\r]+$/.test(part)) {
        apart = true;
        newline ||= part.includes('\n');
      } else {
        words.push({ text: part, face: faceOf(run), apart, newline });
        apart = newline = false;
      }
    }
  }
  return words;
}

/** Cuts a word that is wider than a whole line; each letter is measured once. */
function* cut(word: Word, width: number, measure: Measure): Generator<Word> {
  let { text, apart, newline } = { ...word, text: '' };
  let used = 0;
  for (const letter of word.text) {
    const wide = measure(letter, word.face);
    if (text !== '' && used + wide > width) {
      yield { face: word.face, text, apart, newline };
      [text, used, apart, newline] = ['', 0, false, false];
    }
    text += letter;
    used += wide;
  }
  yield { face: word.face, text, apart, newline };
}

/** Lines no wider than `width` points. Every line but the last ends in a blank, so that words stay apart for readers of the text. */
export function wrap(runs: readonly Run[], width: number, measure: Measure): Line[] {
  const lines: Piece[][] = [[]];
  let used = 0;
  for (const whole of wordsOf(runs)) {
    for (const word of measure(whole.text, whole.face) > width ? cut(whole, width, measure) : [whole]) {
      const line = lines.at(-1)!;
      const blank = word.apart && line.length > 0 ? measure(' ', word.face) : 0;
      const wide = measure(word.text, word.face);
      if (line.length > 0 && (word.newline || used + blank + wide > width)) {
        if (word.apart) add(line, ' ', line.at(-1)!.face);
        lines.push([word]);
        used = wide;
      } else {
        add(line, (blank > 0 ? ' ' : '') + word.text, word.face);
        used += blank + wide;
      }
    }
  }
  return lines.map((line) => line.map(({ text, face }) => ({ text, face })));
}

function add(line: Piece[], text: string, face: Face): void {
  const last = line.at(-1);
  if (last && last.face === face) line[line.length - 1] = { face, text: last.text + text };
  else line.push({ text, face });
}

/** Width of a line without the blank at its end. */
export const widthOf = (line: Line, measure: Measure): number =>
  line.reduce((sum, { text, face }, at) => sum + measure(at === line.length - 1 ? text.trimEnd() : text, face), 0);
