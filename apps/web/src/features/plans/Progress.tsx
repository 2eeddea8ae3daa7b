// A plan that is being made: what the planner does, the best so far, and the way to stop it.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { ShownPlan } from '@backsight/contract/plans';
import { stopPlan } from '../../api/plans.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import classes from './plans.module.css';
import { bestText, progressText } from './words.ts';

export function Progress({ plan: { id, progress } }: { plan: Pick<ShownPlan, 'id' | 'progress'> }): ReactNode {
  const stop = useSend(stopPlan, { refresh: ['plan', id], said: 'The plan stops with the best so far.' });
  const best = progress ? bestText(progress) : null;
  return (
    <div className={classes.progress}>
      <div role="status">
        <p>{progressText(progress)}</p>
        {best ? <p className="numbers">{best}</p> : null}
      </div>
      <progress
        aria-label="Days done"
        max={Math.max(1, progress?.of ?? 1)}
        value={progress && progress.of > 0 ? progress.done : undefined}
      />
      <ProblemNote of={stop.error} />
      <Button variant="default" onClick={() => stop.mutate(id)} loading={stop.isPending} disabled={progress?.stopping ?? false}>
        Stop with the best so far
      </Button>
    </div>
  );
}
