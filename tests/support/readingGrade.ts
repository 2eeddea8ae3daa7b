// The Flesch-Kincaid grade of a text: the school year whose pupils read it without trouble.

const SILENT = /(?:[^laeiouy]es|[^td]ed|[^laeiouy]e)$/;

/** Groups of vowels, less a silent ending: right for most English words, a little high for some. */
export function syllablesOf(word: string): number {
  const plain = word.toLowerCase().replaceAll(/[^a-z]/g, '');
  if (plain.length <= 3) return 1;
  const heard = plain.replace(SILENT, '').replace(/^y/, '');
  return Math.max(1, heard.match(/[aeiouy]{1,2}/g)?.length ?? 1);
}

const WORD = /[A-Za-z][A-Za-z'’-]*/g;

/**
 * 0.39 words per sentence + 11.8 syllables per word - 15.59 (Kincaid, Fishburne, Rogers and Chissom 1975, Research Branch Report 8-75).
 * @param sentences each with its words; what holds no word counts for nothing.
 */
export function readingGrade(sentences: readonly string[]): number {
  const words = sentences.map((sentence) => sentence.match(WORD) ?? []).filter(({ length }) => length > 0);
  const all = words.flat();
  const syllables = all.reduce((total, word) => total + syllablesOf(word), 0);
  return 0.39 * (all.length / words.length) + 11.8 * (syllables / all.length) - 15.59;
}

const BLOCK = /<\/?(?:p|li|dd|dt|h\d|label|legend|button|option|td|th|div|section|span|br)\b[^>]*>/g;

/** The sentences of a page's own words; `without` takes out parts that are not its own, as the paper to be signed. */
export const sentencesOf = (page: string, without: readonly RegExp[] = []): string[] =>
  without
    .reduce((text, part) => text.replace(part, ' '), page)
    .replace(/<head>.*<\/head>/s, '')
    .replaceAll(/<(?:option|textarea)\b.*?<\/(?:option|textarea)>/gs, ' ')
    .replaceAll(BLOCK, '\n')
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll('&#39;', "'")
    .split(/[.!?]+\s|\n\s*\n/)
    .map((sentence) => sentence.replaceAll(/\s+/g, ' ').trim())
    .filter((sentence) => /[a-z]{2}/.test(sentence));
