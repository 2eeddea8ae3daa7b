// Sends a letter about a callback, as it was edited, by mail, or writes it for paper; either way it is kept as it left.
import { mailKindOf, LETTERS, LINK_PLACE, mayWriteLetter, type LetterName, type Words } from '@backsight/domain/callbacks/letters';
import { withoutKeys } from '@backsight/domain/mail/retry';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { saveAnswerLink } from '@backsight/store/callbacks/appeals';
import { newToken } from '../agreements/steps/digest.ts';
import { inviter } from '../mail/steps/invitation.ts';
import type { Act, Work } from '../run.ts';
import { record, rolesOf, withCallback, type Done } from './steps/callback.ts';
import { checkWith, letterOn } from './steps/checkWritten.ts';
import { confirmedConclusion } from './steps/confirmed.ts';
import { loadLetterFile, type LetterFile } from './steps/letterFile.ts';

export type LetterInput = Words & { id: string; letter: LetterName; way: 'mail' | 'paper'; publicUrl: string };

/** Refusals: those of `mayWriteLetter` and `checkLetter`, conclusion-unconfirmed, letter-needs-address. */
export const writeLetter: Act<LetterInput, Done> = {
  operation: 'callbacks.write-letter',
  run: (work, input) => withCallback(work, input.id, (callback) => write(work, callback, input)),
};

async function write(work: Work, callback: CallbackRow, input: LetterInput): Promise<Outcome<Done>> {
  const { letter, way, subject } = input;
  const file = await loadLetterFile(work.tx, callback, work.now);
  const may = mayWriteLetter(letterOn(file), letter);
  if (!may.ok) return may;
  const confirmed = letter === 'decision' ? await confirmedConclusion(work.tx, callback.id) : may;
  if (!confirmed.ok) return confirmed;
  const checked = await checkWith(work.tx, file, input, rolesOf(work.actor));
  if (!checked.ok) return checked;
  if (way === 'mail' && file.to.email === null) return refuse('letter-needs-address', { name: file.to.name }, 'way');
  const body = input.body.includes(LINK_PLACE) ? input.body.replaceAll(LINK_PLACE, await newLink(work, file, input.publicUrl)) : input.body;
  const key = `letter:${callback.id}:${callback.version + 1}`;
  if (way === 'mail') await send(work, file, { ...input, body, key });
  const details = { letter, way, to: file.to.name, subject, offers: checked.value.offers, ...(way === 'mail' ? { key } : {}) };
  return record(work, callback, { kind: 'letter', state: callback.state, details, words: withoutKeys(body) });
}

/** Long enough for an appeal, the closing after it, and the answer to that. */
const LINK_DAYS = 180;

async function newLink(work: Work, { callback, to }: LetterFile, publicUrl: string): Promise<string> {
  const { token, tokenHash } = newToken();
  const endsAt = new Date(work.now.getTime() + LINK_DAYS * 86_400_000);
  await saveAnswerLink(work.tx, { id: work.newId(), callbackId: callback.id, partyId: to.id!, tokenHash, endsAt, at: work.now });
  return `${publicUrl}/client/after/${token}`;
}

async function send(work: Work, file: LetterFile, l: LetterInput & { key: string }): Promise<void> {
  const { callback, to, visit, firm, job } = file;
  const location = `${job.address}, ${job.town}`;
  const invitation =
    l.letter === 'visit' && visit
      ? await inviter(work, 'REQUEST', {
          ...{ visitId: visit.id, version: visit.version, startsAt: visit.startsAt, endsAt: visit.endsAt, location },
          summary: `${firm.name}: ${LETTERS.visit.toLowerCase()} about number ${callback.number}`,
        })
      : null;
  await work.mail({
    ...{
      kind: mailKindOf(l.letter, callback.kind),
      messageKey: l.key,
      toAddress: to.email!,
      toName: to.name,
      subject: l.subject,
      body: l.body,
    },
    ...{ aboutKind: 'callback', aboutId: callback.id, calendar: invitation ? invitation({ name: to.name, email: to.email! }) : null },
  });
}
