// Writes a letter about a callback for paper: for whoever has no e-mail address or wants one in the hand.
import { writeLetter as wordLetter, type Values } from '@backsight/domain/mail/letter';
import { mayWriteDecision, mayWriteHeard } from '@backsight/domain/callbacks/state';
import { SPEAKERS, type Speaker } from '@backsight/domain/callbacks/words';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { LetterKind } from '@backsight/store/callbacks/letters';
import { findFirm } from '@backsight/store/firm';
import { findParties } from '@backsight/store/jobs/parties';
import { findWording } from '@backsight/store/mail/wording';
import type { Act, Work } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';
import { confirmedConclusion } from './steps/confirmed.ts';

/** `words` is what was decided; an acknowledgement needs none. */
type Input = { id: string; letter: LetterKind; words?: string };

/** In the same wording as by mail. Refusals: callback-state, no-letter-in-this, letter-needs-words. */
export const writeLetter: Act<Input, Done> = {
  operation: 'callbacks.write-letter',
  run: (work, input) => withCallback(work, input.id, (callback) => write(work, callback, input)),
};

async function write(work: Work, callback: CallbackRow, { letter, words }: Input): Promise<Outcome<Done>> {
  const may = letter === 'decision' ? mayWriteDecision(callback) : mayWriteHeard(callback);
  if (!may.ok) return may;
  const confirmed = letter === 'decision' ? await confirmedConclusion(work.tx, callback.id) : may;
  if (!confirmed.ok) return confirmed;
  if (letter === 'decision' && !words?.trim()) return refuse('letter-needs-words', {}, 'words');
  const [party] = callback.partyId === null ? [] : await findParties(work.tx, [callback.partyId]);
  const name = party?.name ?? `the ${SPEAKERS[callback.speaker as Speaker]}`;
  const kind = letter === 'decision' ? 'decision' : callback.kind === 'question' ? 'question_acknowledgement' : 'callback_acknowledgement';
  const written = wordLetter(kind, await findWording(work.tx, kind), { ...(await valuesFor(work, callback)), name, decision: words });
  if (!written.ok) return written;
  const { subject, body } = written.value;
  return record(work, callback, { kind: 'letter', state: callback.state, details: { letter, to: name, subject }, words: body });
}

async function valuesFor(work: Work, callback: CallbackRow): Promise<Values> {
  const [firm, job] = [(await findFirm(work.tx))!, (await findJobForCallback(work.tx, callback.jobId))!];
  return { firm: firm.name, firm_phone: firm.phone, address: `${job.address}, ${job.town}`, number: String(callback.number) };
}
