// The day of an attorney's review.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Work } from '../../run.ts';
import { localDay } from '../../firm/steps/localDay.ts';

/** It has been there where the firm is. Refusal: approval-ahead. */
export async function reviewWas({ tx, now }: Work, on: string): Promise<Outcome<null>> {
  const { today } = await localDay(tx, now);
  return on > today ? refuse('approval-ahead', { on }, 'on') : accept(null);
}
