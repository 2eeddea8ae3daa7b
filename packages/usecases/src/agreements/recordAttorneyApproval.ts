// The owner records which attorney reviewed an agreement text; from then on it is no longer marked as an example.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findText, saveReview } from '@backsight/store/agreements/texts';
import type { Act, Work } from '../run.ts';
import { reviewWas } from './steps/reviewDay.ts';

/** `locked`: keys of the clauses that may not be reworded without a new review. */
export type ApprovalInput = { textId: string; attorney: string; on: string; locked: string[] };

export const recordAttorneyApproval: Act<ApprovalInput, { id: string }> = { operation: 'agreements.attorney', run: record };

async function record(work: Work, { textId, attorney, on, locked }: ApprovalInput): Promise<Outcome<{ id: string }>> {
  const text = await findText(work.tx, textId);
  if (!text) return refuse('not-found', { thing: 'agreement text' });
  if (text.state === 'draft') return refuse('agreement-text-not-approved', { number: text.number });
  const was = await reviewWas(work, on);
  if (!was.ok) return was;
  const unknown = locked.find((key) => !text.clauses.some((clause) => clause.key === key));
  if (unknown !== undefined) return refuse('clause-unknown', { key: unknown }, 'locked');
  if (!(await saveReview(work.tx, textId, { attorney, on, locked }))) return refuse('approved-already');
  await work.did('agreement-text', textId, { on, locked });
  return accept({ id: textId });
}
