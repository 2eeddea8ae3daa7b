// The client was expected at the walk-through and did not come: it is offered by phone.
import { addNeed } from '@backsight/store/jobs/markNeed';
import type { VisitRow } from '@backsight/store/sitework/visit';
import type { Work } from '../../run.ts';

const DAY = 86_400_000;

export const missedWalkThrough = (work: Work, visit: VisitRow): Promise<void> =>
  addNeed(work.tx, {
    id: work.newId(),
    jobId: visit.jobId,
    kind: 'walk_through',
    dueAt: new Date(work.now.getTime() + DAY),
    details: { why: 'The client missed the walk-through; offer to go through the findings by phone.' },
    at: work.now,
  });
