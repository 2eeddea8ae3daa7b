// The review of a corrective action: did it work, with the figures as they stood when it was said.
import { decideReview } from '@backsight/domain/callbacks/action';
import type { ReviewResult } from '@backsight/domain/callbacks/words';
import { accept } from '@backsight/domain/shared/outcome';
import type { ActionChange } from '@backsight/store/callbacks/actions';
import { dayIn } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import type { Act } from '../run.ts';
import { effectOf, figuresOf } from './steps/effectOf.ts';
import { namesNone, recordAction, withAction } from './steps/action.ts';
import { dayAt } from './steps/day.ts';

export type ReviewInput = { id: string; result: ReviewResult; words: string; nextOn: string | null };

/** "Did not work" opens the action again; "too early" plans the next review with the same person. */
export const reviewAction: Act<ReviewInput, { id: string }> = {
  operation: 'callbacks.review-action',
  run: (work, { id, result, words, nextOn }) =>
    withAction(work, id, async (action) => {
      const zone = (await findFirm(work.tx))?.zone ?? 'UTC';
      const changed = action.changedAt !== null && action.changedAt <= work.now;
      const may = decideReview({ state: action.state, changed, today: dayAt(work.now, zone) }, { result, nextOn });
      if (!may.ok) return may;
      const clean = await namesNone(
        work,
        action.callbacks.map((c) => c.id),
        { words },
      );
      if (!clean.ok) return clean;
      const figures = figuresOf(await effectOf(work.tx, action, { now: work.now, days: null }));
      const next = result === 'too_early' ? nextOn : null;
      const change: ActionChange = {
        reviewOn: next === null ? null : dayIn(next),
        reviewerId: next === null ? null : (action.reviewerId ?? action.ownerId),
        ...(result === 'did_not' ? { state: 'open' as const, doneAt: null, reopenedAt: work.now } : {}),
      };
      const event = { kind: 'reviewed' as const, details: { result, figures, nextOn: next }, words, audit: { result, nextOn: next } };
      await recordAction(work, action, event, change);
      return accept({ id });
    }),
};
