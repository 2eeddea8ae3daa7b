// How many years of school English words ask for.

const VOWELS = /[aeiouy]+/g;

/**
 * Syllables of an English word by its vowel groups: a final silent e is none (but "le" after a consonant is one), nor are -es and -ed after
 * other letters than those that make them sound. An estimate: dictionaries differ on about one word in ten.
 */
export function syllables(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, '');
  if (plain.length <= 3) return plain === '' ? 0 : 1;
  const spoken = plain.replace(/(?:[^laeiouy]e|[^sxzcgh]es|[^dt]ed)$/, (end) => end[0]!);
  return Math.max(1, spoken.match(VOWELS)?.length ?? 1);
}

/** Spoken one digit after the other, as 911 is. */
const inDigits = (word: string): number => word.replace(/\D/g, '').length;

/**
 * Flesch-Kincaid grade level, to one decimal: 0.39 (words / sentences) + 11.8 (syllables / words) - 15.59. Source: J. P. Kincaid, R. P.
 * Fishburne, R. L. Rogers, B. S. Chissom, Derivation of New Readability Formulas for Navy Enlisted Personnel, Research Branch Report 8-75,
 * Naval Technical Training Command, 1975. 0 for no words.
 */
export function readingGrade(text: string): number {
  const words = text.split(/[\s-]+/).filter((word) => /[a-z0-9]/i.test(word));
  if (words.length === 0) return 0;
  const sentences = Math.max(1, text.split(/(?<![.!?:;])[.!?:;]+(?:\s|$)/).filter((part) => /[a-z0-9]/i.test(part)).length);
  const spoken = words.reduce((sum, word) => sum + (/[a-z]/i.test(word) ? syllables(word) : Math.max(1, inDigits(word))), 0);
  return Math.round((0.39 * (words.length / sentences) + 11.8 * (spoken / words.length) - 15.59) * 10) / 10;
}
