// Pure changes of the list of clauses while a draft is edited.
import type { Clause } from '@backsight/contract/agreementTexts';

const MOST = 60;

/** A key of the list's own that nobody has: made of the title, with a number when it is taken. */
export function keyFor(title: string, taken: readonly string[]): string {
  const base = `c_${title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '_')
    .replaceAll(/^_+|(?<!_)_+$/g, '')}`.slice(0, MOST - 4);
  if (!taken.includes(base)) return base;
  let number = 2;
  while (taken.includes(`${base}_${number}`)) number += 1;
  return `${base}_${number}`;
}

export const blankClause = (taken: readonly string[]): Clause => ({
  ...{ key: keyFor('new clause', taken), title: 'New clause', body: '' },
  ...{ applies: { always: true }, client: 'anybody' },
});

/** The list with the clause at a place moved by one. */
export function shifted<T>(list: readonly T[], at: number, by: -1 | 1): T[] {
  const next = [...list];
  const [moved] = next.splice(at, 1);
  next.splice(at + by, 0, moved!);
  return next;
}
