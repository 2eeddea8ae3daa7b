// The owner records which attorney reviewed an agreement text; from then on it is no longer marked as an example.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findText, saveReview } from '@backsight/store/agreements/texts';
import { findFirm } from '@backsight/store/firm';
import type { Act, Work } from '../run.ts';

export type ApprovalInput = { textId: string; attorney: string; on: string };

export const recordAttorneyApproval: Act<ApprovalInput, { id: string }> = { operation: 'agreements.attorney', run: record };

async function record(work: Work, { textId, attorney, on }: ApprovalInput): Promise<Outcome<{ id: string }>> {
  const text = await findText(work.tx, textId);
  if (!text) return refuse('not-found', { thing: 'agreement text' });
  if (text.state === 'draft') return refuse('agreement-text-not-approved', { number: text.number });
  const zone = (await findFirm(work.tx))?.zone ?? 'UTC';
  if (on > DateTime.fromJSDate(work.now, { zone }).toISODate()!) return refuse('approval-ahead', { on }, 'on');
  if (!(await saveReview(work.tx, textId, attorney, on))) return refuse('approved-already');
  await work.did('agreement-text', textId, { on });
  return accept({ id: textId });
}
