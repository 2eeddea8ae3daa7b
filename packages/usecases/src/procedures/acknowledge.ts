// A person says: I have read this revision and will work by it; before that, answers to its questions.
import { mark, stillOpen, type Answer, type Marked } from '@backsight/domain/procedures/questions';
import { acknowledge } from '@backsight/domain/procedures/revise';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { acknowledgementsOf, answersOf, findRevision } from '@backsight/store/procedures/book';
import { saveAcknowledgement, saveAnswers } from '@backsight/store/procedures/change';
import type { Act, Work } from '../run.ts';

/** `happenedAt`: ISO instant, when it was said offline; null = now. */
export type AcknowledgeInput = { id: string; where: 'ahead' | 'at_the_start'; happenedAt: string | null };

export const acknowledgeRevision: Act<AcknowledgeInput, { id: string; happenedAt: string }> = {
  operation: 'procedures.acknowledge',
  run: async (work, { id, where, happenedAt }) => {
    const { actor, now } = work;
    if (actor.kind !== 'person') return refuse('not-allowed');
    const revision = await findRevision(work.tx, id);
    if (!revision) return refuse('not-found', { thing: 'revision' });
    const already = (await acknowledgementsOf(work.tx, id, now)).some((one) => one.personId === actor.id && one.happenedAt !== null);
    const openQuestions = stillOpen(revision.questions, await answersOf(work.tx, id, actor.id)).length;
    const at = happenedAt ?? now.toISOString();
    const decided = acknowledge({ revision, already, openQuestions, now: now.toISOString() }, { happenedAt: at, where });
    if (!decided.ok) return decided;
    await saveAcknowledgement(work.tx, { revisionId: id, personId: actor.id, where, happenedAt: new Date(at), recordedAt: now });
    await work.did('procedure-revision', id, { event: 'acknowledged', where });
    return accept({ id, happenedAt: at });
  },
};

type Round = { id: string; answers: Marked[] };

/** Marks a round of answers and keeps all of them, wrong ones too; the reply says which step to read again. */
export const answerQuestions: Act<{ id: string; answers: readonly Answer[] }, Round> = { operation: 'procedures.answer', run: answerThem };

async function answerThem(work: Work, input: { id: string; answers: readonly Answer[] }): Promise<Outcome<Round>> {
  const { actor, now, newId } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  const revision = await findRevision(work.tx, input.id);
  if (!revision) return refuse('not-found', { thing: 'revision' });
  if (revision.state !== 'approved') return refuse('revision-not-approved', { number: revision.number });
  const marked = mark(revision.questions, input.answers);
  if (!marked.ok) return marked;
  await saveAnswers(work.tx, { revisionId: input.id, personId: actor.id, happenedAt: now, recordedAt: now, newId }, marked.value);
  await work.did('procedure-revision', input.id, { event: 'answered', wrong: marked.value.filter(({ correct }) => !correct).length });
  return accept({ id: input.id, answers: marked.value });
}
