// Longest common subsequence: what two lists share in the same order.

/** lengths[i][j]: how long the common subsequence of a from i on and b from j on is. */
const lengthsOf = <T>(a: readonly T[], b: readonly T[], same: (x: T, y: T) => boolean): Uint16Array[] => {
  const lengths = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1) {
      lengths[i]![j] = same(a[i]!, b[j]!) ? lengths[i + 1]![j + 1]! + 1 : Math.max(lengths[i + 1]![j]!, lengths[i]![j + 1]!);
    }
  }
  return lengths;
};

/**
 * Pairs of places [in a, in b] of one longest common subsequence, rising in both. Time and memory grow with the product of the
 * lengths, each at most 65,535 (Wagner and Fischer, "The String-to-String Correction Problem", J. ACM 21, 1974).
 */
export const longestCommon = <T>(a: readonly T[], b: readonly T[], same: (x: T, y: T) => boolean = Object.is): [number, number][] => {
  const lengths = lengthsOf(a, b, same);
  const pairs: [number, number][] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    if (same(a[i]!, b[j]!)) pairs.push([i++, j++]);
    else if (lengths[i + 1]![j]! >= lengths[i]![j + 1]!) i += 1;
    else j += 1;
  }
  return pairs;
};
