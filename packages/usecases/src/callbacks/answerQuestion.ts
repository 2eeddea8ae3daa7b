// Answers a question about the report: by mail to whoever asked, or as it was said to them. It stays a question, and is closed.
import { mayAnswer } from '@backsight/domain/callbacks/state';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { findFirm } from '@backsight/store/firm';
import { findParties } from '@backsight/store/jobs/parties';
import { sendLetter } from '../mail/steps/letter.ts';
import type { Act } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';

/** Refusals: question-only. */
export const answerQuestion: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.answer',
  run: (work, { id, words }) =>
    withCallback(work, id, async (callback) => {
      const next = mayAnswer(callback);
      if (!next.ok) return next;
      const [party] = callback.partyId === null ? [] : await findParties(work.tx, [callback.partyId]);
      const [firm, job] = [(await findFirm(work.tx))!, (await findJobForCallback(work.tx, callback.jobId))!];
      if (party?.email && !callback.ownerOnly)
        await sendLetter(work, {
          kind: 'question_answer',
          messageKey: `answer:${callback.id}:${callback.version}`,
          to: { name: party.name, email: party.email },
          values: {
            ...{ firm: firm.name, firm_phone: firm.phone, address: `${job.address}, ${job.town}`, number: String(callback.number) },
            answer: words,
          },
          about: { kind: 'callback', id: callback.id },
        });
      const mailed = party?.email !== undefined && party.email !== null && !callback.ownerOnly;
      return record(work, callback, { kind: 'answered', state: next.value, details: { mailed }, words });
    }),
};
