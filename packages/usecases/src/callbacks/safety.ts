// Marks a callback as a danger to people, or lifts the mark; and somebody says "I have it".
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockCallback, type CallbackRow } from '@backsight/store/callbacks';
import { answerChain, chainsOf } from '@backsight/store/callbacks/danger';
import type { Act, Work } from '../run.ts';
import { record, rolesOf, withCallback, type Done } from './steps/callback.ts';
import { mayAnswer } from './steps/mayAnswer.ts';

/** Marked, the alerts begin in the same transaction; lifted, they end. Refusals: safety-as-it-is, callback-state. */
export const markSafety: Act<{ id: string; safety: boolean; words: string }, Done> = {
  operation: 'callbacks.mark-safety',
  run: (work, { id, safety, words }) =>
    withCallback(work, id, async (callback) => {
      if (callback.state === 'closed') return refuse('callback-state', { state: 'closed', needed: 'open' });
      if (callback.safety === safety) return refuse('safety-as-it-is', { marked: safety ? 'marked as a danger' : 'not marked' });
      const kind = safety ? 'safety_marked' : 'safety_lifted';
      return record(work, callback, { kind, state: callback.state, details: { safety }, words, changed: { safety } });
    }),
};

export type Answered = { id: string; answeredBy: string; answeredAt: string; mine: boolean };

/** Whoever of the firm was alerted, is on call or sees the callback. Said twice, the first one keeps it. Refusals: not-found, no-danger-here. */
export const answerDanger: Act<{ id: string }, Answered> = {
  operation: 'callbacks.answer-danger',
  run: async (work, { id }) => {
    const { actor } = work;
    if (actor.kind !== 'person') return refuse('not-allowed');
    const callback = await lockCallback(work.tx, id);
    if (!callback || !(await mayAnswer(work.tx, callback, { id: actor.id, roles: rolesOf(actor), now: work.now })))
      return refuse('not-found', { thing: 'callback' });
    return answer(work, callback, actor.id);
  },
};

async function answer(work: Work, callback: CallbackRow, by: string): Promise<Outcome<Answered>> {
  if (await answerChain(work.tx, callback.id, work.now, by))
    await record(work, callback, { kind: 'danger_answered', state: callback.state });
  else await work.did('callback', callback.id, { event: 'danger-answered-already', number: callback.number });
  const [newest] = await chainsOf(work.tx, callback.id);
  if (!newest?.answeredAt) return refuse('no-danger-here');
  const { answeredAt, answeredBy, answeredById } = newest;
  return accept({ id: callback.id, answeredAt: answeredAt.toISOString(), answeredBy: answeredBy!, mine: answeredById === by });
}
