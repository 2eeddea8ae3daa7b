// Acts in the order in which they were made.

export const inOrder = <A extends { order: string }>(acts: readonly A[]): A[] =>
  [...acts].sort((a, b) => (a.order < b.order ? -1 : a.order > b.order ? 1 : 0));
