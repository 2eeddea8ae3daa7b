// Drafts a letter about a callback from its file, and says of an edited one whether it may leave.
import { mailKindOf, mayWriteLetter, opinionsIn, type LetterName, type Words } from '@backsight/domain/callbacks/letters';
import { CAUSES } from '@backsight/domain/callbacks/words';
import { writeLetter as wordLetter } from '@backsight/domain/mail/letter';
import { readingGrade } from '@backsight/domain/shared/readingGrade';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback } from '@backsight/store/callbacks';
import type { Reader } from '@backsight/store/database';
import { findWording, reviewOfWording } from '@backsight/store/mail/wording';
import type { Actor } from '../run.ts';
import { isOwner, rolesOf } from './steps/callback.ts';
import { checkWith, letterOn } from './steps/checkWritten.ts';
import { loadLetterFile, valuesOf, type LetterFile } from './steps/letterFile.ts';

type Ask = { id: string; letter: LetterName; actor: Actor; now: Date };

async function open(reader: Reader, { id, letter, actor, now }: Ask): Promise<Outcome<LetterFile>> {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(rolesOf(actor)))) return refuse('not-found', { thing: 'callback' });
  const file = await loadLetterFile(reader, callback, now);
  const may = mayWriteLetter(letterOn(file), letter);
  return may.ok ? accept(file) : may;
}

/** The draft, whom it goes to, and whether an attorney's wording is locked. Refusals: not-found, those of `mayWriteLetter`. */
export async function draftLetter(reader: Reader, ask: Ask & { way: 'mail' | 'paper' | null; names: boolean; publicUrl: string }) {
  const opened = await open(reader, ask);
  if (!opened.ok) return opened;
  const { value: file } = opened;
  const way = ask.way ?? (file.to.email === null ? 'paper' : 'mail');
  const kind = mailKindOf(ask.letter, file.callback.kind);
  const values = valuesOf(file, { ...ask, way });
  const written = wordLetter(kind, await findWording(reader, kind), values);
  if (!written.ok) return written;
  return accept({
    ...{ way, to: file.to.name, email: file.to.email, calendar: ask.letter === 'visit' && way === 'mail' },
    ...written.value,
    review: await reviewOfWording(reader, kind),
  });
}

/** How hard an edited letter is to read, what it names of the file's opinions, and why it may not leave yet. */
export async function lookAtLetter(reader: Reader, ask: Ask & Words & { way: 'mail' | 'paper' }) {
  const opened = await open(reader, ask);
  if (!opened.ok) return opened;
  const checked = await checkWith(reader, opened.value, ask, rolesOf(ask.actor));
  return accept({
    grade: readingGrade(ask.body.replace(/https?:\S+|\{\{[^}]*\}\}/g, ' ')),
    names: opinionsIn(ask.body, { causes: Object.values(CAUSES), people: opened.value.job.pair.map(({ name }) => name), steps: [] }),
    refused: checked.ok ? null : checked,
  });
}
