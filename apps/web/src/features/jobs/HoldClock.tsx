// How long a held time is still kept, counting down; one button keeps it once more.
import { useEffect, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { crewQuery, extendHold } from '../../api/crew.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { useChange } from './useChange.ts';

const two = (n: number): string => String(n).padStart(2, '0');
const said = (seconds: number): string => `${Math.floor(seconds / 60)}:${two(seconds % 60)}`;

export function HoldClock({ job, until }: { job: Job; until: string }): ReactNode {
  const queries = useQueryClient();
  const [now, setNow] = useState(Date.now);
  const seconds = Math.max(0, Math.ceil((Date.parse(until) - now) / 1000));
  const crew = useQuery(crewQuery(job.id)).data;
  const extend = useChange(extendHold, 'The time is kept once more.');
  useEffect(() => {
    const ticking = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(ticking);
  }, []);
  const over = seconds === 0;
  useEffect(() => {
    if (over) void queries.invalidateQueries({ queryKey: ['jobs', job.id] });
  }, [over, queries, job.id]);
  if (over) return <span>The hold has ended. It can be confirmed as long as the time is still free.</span>;
  return (
    <span>
      The time is kept until <When at={until} />, for another{' '}
      <strong role="timer" className="numbers">
        {said(seconds)}
      </strong>
      .{' '}
      {crew?.visits.some(({ state, holdExtended }) => state === 'held' && !holdExtended) ? (
        <Button
          size="compact-sm"
          variant="default"
          loading={extend.isPending}
          onClick={() => extend.mutate({ id: job.id, version: job.version })}
        >
          Keep it once more
        </Button>
      ) : null}
      <ProblemNote of={extend.error} />
    </span>
  );
}
