// What a new agreement says otherwise than the one before it, paragraph by paragraph.

/** `was` null: it is new; `now` null: it is gone. Paragraphs that took one another's place stand together. */
export type Change = { was: string | null; now: string | null };

const paragraphsOf = (body: string): string[] =>
  body
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** A heading that only got another number says the same. */
const wordsOf = (line: string): string => line.replace(/^(#+ )\d+\. /, '$1');
/** As it is read: without the marks of headings and of bold words. */
const asRead = (line: string | undefined): string | null => line?.replace(/^#+ /, '').replaceAll('**', '') ?? null;

/** Lengths of the longest common subsequence of every two tails (Wagner and Fischer 1974). */
function tails(a: readonly string[], b: readonly string[]): number[][] {
  const table = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      table[i]![j] = wordsOf(a[i]!) === wordsOf(b[j]!) ? table[i + 1]![j + 1]! + 1 : Math.max(table[i + 1]![j]!, table[i]![j + 1]!);
  return table;
}

/** The changes from one body to another in the order in which they are read; none when they say the same. */
export function changesBetween(before: string, after: string): Change[] {
  const [a, b] = [paragraphsOf(before), paragraphsOf(after)];
  const table = tails(a, b);
  const found: Change[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    const gone: string[] = [];
    const fresh: string[] = [];
    while ((i < a.length || j < b.length) && !(i < a.length && j < b.length && wordsOf(a[i]!) === wordsOf(b[j]!))) {
      if (j >= b.length || (i < a.length && table[i + 1]![j]! >= table[i]![j + 1]!)) gone.push(a[i++]!);
      else fresh.push(b[j++]!);
    }
    for (let at = 0; at < Math.max(gone.length, fresh.length); at++) found.push({ was: asRead(gone[at]), now: asRead(fresh[at]) });
    i += 1;
    j += 1;
  }
  return found;
}
