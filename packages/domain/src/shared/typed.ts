// What somebody typed to find something: its words, its numbers, and the piece of a text in which they stand.

/** So many words narrow a search; more are left out. */
export const WORDS_AT_MOST = 5;
/** Job and callback numbers are integers of the database. */
const LARGEST = 2_147_483_647;

/** The words in small letters, the longest first, and those that are numbers ('#1204' too). */
export function readTyped(text: string): { words: string[]; numbers: number[] } {
  const words = [
    ...new Set(
      text
        .toLowerCase()
        .split(/[\s,;]+/)
        .map((word) => word.replace(/^#(?=\d)/, ''))
        .filter(Boolean),
    ),
  ];
  return {
    words: words.toSorted((a, b) => b.length - a.length).slice(0, WORDS_AT_MOST),
    numbers: words.filter((word) => /^\d{1,10}$/.test(word) && Number(word) <= LARGEST).map(Number),
  };
}

/** At most `length` characters of a text around the first of the words that stands in it, on one line; what was left out is shown as dots. */
export function pieceAround(text: string, words: readonly string[], length = 110): string {
  const line = text.replace(/\s+/g, ' ').trim();
  if (line.length <= length) return line;
  const low = line.toLowerCase();
  const at = Math.min(...words.map((word) => low.indexOf(word)).filter((found) => found >= 0), low.length);
  const from = at === low.length || at < length / 2 ? 0 : line.lastIndexOf(' ', at - length / 4) + 1;
  const until = from + length >= line.length ? line.length : line.lastIndexOf(' ', from + length);
  return `${from > 0 ? '... ' : ''}${line.slice(from, until > from ? until : from + length)}${until < line.length ? ' ...' : ''}`;
}
