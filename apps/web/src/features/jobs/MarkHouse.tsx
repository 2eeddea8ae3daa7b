// Marks the house of a job: the owner is asked before anybody books for it again.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { markHouse } from '../../api/jobs.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useChange } from './useChange.ts';

export function MarkHouse({ job }: { job: Job }): ReactNode {
  const [open, setOpen] = useState(false);
  const [reason, setReason] = useState('');
  const mark = useChange(markHouse, 'Noted for this house.', () => setOpen(false));
  const { id } = job.property;
  if (!open)
    return (
      <Button size="compact-md" variant="default" onClick={() => setOpen(true)}>
        Ask me before booking for this house
      </Button>
    );
  return (
    <>
      <ProblemNote of={mark.error} />
      <Group gap="sm" align="flex-end">
        <TextInput
          label="Reason, for the owner"
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
          maxLength={200}
        />
        <Button loading={mark.isPending} disabled={reason.trim() === ''} onClick={() => mark.mutate({ id, askOwner: reason })}>
          Mark this house
        </Button>
        <Button variant="default" loading={mark.isPending} onClick={() => mark.mutate({ id, askOwner: null })}>
          Take a mark away
        </Button>
        <Button variant="default" onClick={() => setOpen(false)}>
          Leave it
        </Button>
      </Group>
    </>
  );
}
