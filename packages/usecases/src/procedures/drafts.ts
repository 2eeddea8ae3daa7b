// Drafts of revisions: begun, changed as a whole, discarded.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { editSteps } from '@backsight/domain/procedures/editSteps';
import { nothingPersonal } from '@backsight/domain/procedures/personal';
import { mustBeDraft } from '@backsight/domain/procedures/revise';
import { nothingPersonalInQuestions, type Question } from '@backsight/domain/procedures/questions';
import type { Step } from '@backsight/domain/procedures/step';
import { knownKeys } from '@backsight/store/procedures/book';
import { removeDraft, removeEmptyProcedure, removeSteps, updateDraft } from '@backsight/store/procedures/change';
import { saveStepKeys, saveSteps } from '@backsight/store/procedures/save';
import type { Act, Work } from '../run.ts';
import { lockRevision } from './steps/facts.ts';
import { startDraft } from './steps/startDraft.ts';

export const draftRevision: Act<{ id: string; procedureId: string; reason: string; retires?: boolean }, { id: string; number: number }> = {
  operation: 'procedures.draft',
  run: async (work, input) =>
    work.actor.kind === 'person'
      ? startDraft(work, { ...input, retires: input.retires ?? false, authorId: work.actor.id })
      : refuse('not-allowed'),
};

/**
 * The whole list of steps in its new order. `basedOnId` says with which approved revision the author has compared it. Questions left
 * out stay as they are.
 */
export type ChangeDraftInput = {
  id: string;
  version: number;
  reason: string;
  basedOnId: string | null;
  steps: readonly Step[];
  questions?: readonly Question[] | undefined;
};

export const changeDraft: Act<ChangeDraftInput, { id: string; version: number }> = { operation: 'procedures.change-draft', run: change };

async function change(work: Work, input: ChangeDraftInput): Promise<Outcome<{ id: string; version: number }>> {
  const { id, version, reason, basedOnId, steps, questions } = input;
  const found = await lockRevision(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'revision' });
  const open = mustBeDraft(found.row);
  if (!open.ok) return open;
  if (basedOnId !== found.row.basedOnId && basedOnId !== (found.newest?.id ?? null))
    return refuse('not-found', { thing: 'approved revision' }, 'basedOnId');
  for (const clean of [nothingPersonal(reason, 'reason'), nothingPersonalInQuestions(questions ?? [])]) if (!clean.ok) return clean;
  if (found.row.retires && steps.length > 0) return refuse('retirement-without-steps');
  const asked = steps.flatMap(({ key, derivedFrom }) => (derivedFrom === undefined ? [key] : [key, derivedFrom]));
  const edited = editSteps({ procedureId: found.row.procedureId, known: await knownKeys(work.tx, asked) }, steps);
  if (!edited.ok) return edited;
  if (!(await updateDraft(work.tx, id, version, { reason, basedOnId, ...(questions ? { questions } : {}) })))
    return refuse('changed-meanwhile');
  await saveStepKeys(work.tx, edited.value);
  await removeSteps(work.tx, id);
  await saveSteps(work.tx, [{ revisionId: id, steps }]);
  await work.did('procedure-revision', id, { event: 'changed', steps: steps.length, newKeys: edited.value.map(({ key }) => key) });
  return accept({ id, version: version + 1 });
}

export const discardDraft: Act<{ id: string; version: number }, { id: string }> = {
  operation: 'procedures.discard-draft',
  run: async (work, { id, version }) => {
    const found = await lockRevision(work.tx, id);
    if (!found) return refuse('not-found', { thing: 'revision' });
    const open = mustBeDraft(found.row);
    if (!open.ok) return open;
    if (!(await removeDraft(work.tx, id, version))) return refuse('changed-meanwhile');
    await removeEmptyProcedure(work.tx, found.row.procedureId);
    await work.did('procedure-revision', id, { event: 'discarded', procedureId: found.row.procedureId, number: found.row.number });
    return accept({ id });
  },
};
