// Whether a letter about a callback has its place now, and may leave as it was edited.
import { checkLetter, mailKindOf, type LetterName, type LetterOn, type Words } from '@backsight/domain/callbacks/letters';
import type { Role } from '@backsight/domain/people/roles';
import type { Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findWording, reviewOfWording } from '@backsight/store/mail/wording';
import { isOwner } from './callback.ts';
import { notOffered, type LetterFile } from './letterFile.ts';

export const letterOn = ({ callback, visit, appeals }: LetterFile): LetterOn => ({
  ...callback,
  visitBooked: visit !== null,
  appealDecided: appeals.some(({ result }) => result !== null),
});

/** Holds an edited letter against everything that it may not leave without. Refusals: those of `checkLetter`. */
export async function checkWith(
  reader: Reader,
  file: LetterFile,
  letter: Words & { letter: LetterName; way: 'mail' | 'paper' },
  roles: readonly Role[],
): Promise<Outcome<{ offers: boolean }>> {
  const kind = mailKindOf(letter.letter, file.callback.kind);
  const review = await reviewOfWording(reader, kind);
  return checkLetter(letter, {
    ...{ letter: letter.letter, kind: file.callback.kind, clearances: file.clearances, notOffered: notOffered(file) },
    locked: review ? await findWording(reader, kind) : null,
    isOwner: isOwner(roles),
    link: letter.way === 'mail' && file.to.id !== null,
  });
}
