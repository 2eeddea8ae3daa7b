// Books the visit of an approved re-visit: ranked starts, one choice, booked at once; or shows the one that is booked.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { JOB_STATES, type JobState } from '@backsight/contract/jobs';
import type { Callback } from '@backsight/contract/callbacks';
import { listed } from '@backsight/domain/shared/phrases';
import { bookVisit, visitStartsQuery } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';
import { PickStart } from '../../ui/PickStart.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';

type Remedy = Callback['remedies'][number];

export function BookVisit({ remedy }: { remedy: Remedy }): ReactNode {
  const [open, setOpen] = useOneOpen(`visit-${remedy.id}`);
  if (remedy.visit) return <Booked visit={remedy.visit} />;
  if (remedy.state !== 'approved') return null;
  return open ? (
    <Choose remedyId={remedy.id} onClose={() => setOpen(false)} />
  ) : (
    <Button onClick={() => setOpen(true)}>Book the visit</Button>
  );
}

const Booked = ({ visit: { jobId, number, state, startsAt, pair } }: { visit: NonNullable<Remedy['visit']> }): ReactNode => (
  <p>
    <TextLink to="/jobs/$jobId" params={{ jobId }}>{`Job ${number}`}</TextLink>
    {`, ${JOB_STATES[state as JobState]}: `}
    <When at={startsAt} />
    {` with ${pair.join(' and ')}`}
  </p>
);

function Choose({ remedyId, onClose }: { remedyId: string; onClose: () => void }): ReactNode {
  const { zone } = useMe();
  const [jobId] = useState(newId);
  const [fromDay, setFromDay] = useState(todayIn(zone));
  const found = useQuery(visitStartsQuery(remedyId, fromDay));
  const send = useSend(bookVisit, { refresh: ['callbacks'], said: 'The visit is booked.', then: onClose });
  return (
    <div style={{ width: '100%' }}>
      <ProblemNote of={send.error} />
      {found.data ? (
        <p>{`${listed(found.data.originalPair, 'and')} did the inspection: they do not come back by themselves, so every pair below has somebody who was not there. Nothing is charged.`}</p>
      ) : null}
      <PickStart
        fromDay={fromDay}
        onFromDay={setFromDay}
        starts={found.data?.starts}
        pending={found.isPending}
        error={found.error}
        act="Book this start"
        busy={send.isPending}
        onPick={(start) => send.mutate({ id: remedyId, jobId, start })}
        leave="Go back"
        onLeave={onClose}
      />
    </div>
  );
}
