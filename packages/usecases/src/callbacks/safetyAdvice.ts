// The advice in danger: what is said now, who approved it, and an owner's new words.
import { adviceNow, mayApproveAdvice } from '@backsight/domain/callbacks/advice';
import type { Danger } from '@backsight/domain/callbacks/intakeWords';
import { accept, refuse, type Warning } from '@backsight/domain/shared/outcome';
import { approvedAdvice, saveAdvice } from '@backsight/store/callbacks/advice';
import type { Reader } from '@backsight/store/database';
import type { Act } from '../run.ts';
import { isOwner, rolesOf } from './steps/callback.ts';

export async function readAdvice(reader: Reader) {
  const approved = await approvedAdvice(reader);
  return {
    advice: adviceNow(approved),
    history: approved.map(({ danger, words, approvedBy, approvedAt }) => ({ danger, words, by: approvedBy, at: approvedAt })),
  };
}

/** Refusals: advice-length, not-allowed. */
export const approveAdvice: Act<{ id: string; danger: Danger; words: string }, { id: string; warnings: Warning[] }> = {
  operation: 'callbacks.approve-advice',
  run: async (work, { id, danger, words }) => {
    if (work.actor.kind !== 'person' || !isOwner(rolesOf(work.actor))) return refuse('not-allowed');
    const may = mayApproveAdvice(words);
    if (!may.ok) return may;
    await saveAdvice(work.tx, { id, danger, body: may.value, approvedBy: work.actor.id, recordedAt: work.now });
    await work.did('safety-advice', id, { danger });
    return accept({ id, warnings: may.warnings }, may.warnings);
  },
};
