// Marks word by word what was taken out of a text and what was put in.
import { longestCommon } from './longestCommon.ts';

export type WordMark = { mark: 'same' | 'added' | 'removed'; text: string };

/** Each word with the blanks behind it; the last word gets one too, so that it equals the same word in the middle of a text. */
const wordsOf = (text: string): string[] => (text === '' ? [] : (`${text} `.match(/^\s+|(?<!\S)\S+\s+/g) ?? []));

const joined = (marks: readonly WordMark[]): WordMark[] => {
  const result: WordMark[] = [];
  for (const { mark, text } of marks) {
    const last = result.at(-1);
    if (last?.mark === mark) last.text += text;
    else result.push({ mark, text });
  }
  return result;
};

/**
 * The two texts as one, in order. All that is not 'added' reads as the old text, all that is not 'removed' as the new one
 * (each with one blank at its end); what was taken out stands before what took its place.
 */
export const wordMarks = (before: string, after: string): WordMark[] => {
  const [old, fresh] = [wordsOf(before), wordsOf(after)];
  const marks: WordMark[] = [];
  let [i, j] = [0, 0];
  for (const [atOld, atFresh] of [...longestCommon(old, fresh), [old.length, fresh.length] as const]) {
    marks.push(...old.slice(i, atOld).map((text): WordMark => ({ mark: 'removed', text })));
    marks.push(...fresh.slice(j, atFresh).map((text): WordMark => ({ mark: 'added', text })));
    if (atOld < old.length) marks.push({ mark: 'same', text: old[atOld]! });
    [i, j] = [atOld + 1, atFresh + 1];
  }
  return joined(marks);
};
