// Writes to whoever brought a callback what was decided; the letter admits nothing unless the firm words it so.
import { mayWriteDecision } from '@backsight/domain/callbacks/state';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { findFirm } from '@backsight/store/firm';
import { findParties } from '@backsight/store/jobs/parties';
import { sendLetter } from '../mail/steps/letter.ts';
import type { Act, Work } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';
import { confirmedConclusion } from './steps/confirmed.ts';

/** `words` stand in the letter as they are. Refusals: callback-not-decided, mail-no-address. */
export const sendDecision: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.send-decision',
  run: (work, { id, words }) => withCallback(work, id, (callback) => send(work, callback, words)),
};

async function send(work: Work, callback: CallbackRow, words: string): Promise<Outcome<Done>> {
  const may = mayWriteDecision(callback);
  if (!may.ok) return may;
  const confirmed = await confirmedConclusion(work.tx, callback.id);
  if (!confirmed.ok) return confirmed;
  const [party] = callback.partyId === null ? [] : await findParties(work.tx, [callback.partyId]);
  if (!party?.email) return refuse('mail-no-address', { name: party?.name ?? 'Whoever brought it' });
  const [firm, job] = [(await findFirm(work.tx))!, (await findJobForCallback(work.tx, callback.jobId))!];
  await sendLetter(work, {
    kind: 'decision',
    messageKey: `decision:${callback.id}:${callback.version}`,
    to: { name: party.name, email: party.email },
    values: {
      firm: firm.name,
      firm_phone: firm.phone,
      address: `${job.address}, ${job.town}`,
      number: String(callback.number),
      decision: words,
    },
    about: { kind: 'callback', id: callback.id },
  });
  const noted = await record(work, callback, { kind: 'note', state: callback.state, words: `Decision sent to ${party.name}: ${words}` });
  return noted.ok ? accept(noted.value, noted.warnings) : noted;
}
