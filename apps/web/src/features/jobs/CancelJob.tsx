// Cancels a job, with the reason.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { cancelJob } from '../../api/jobs.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { useChange } from './useChange.ts';

export function CancelJob({ job }: { job: Job }): ReactNode {
  const [opened, setOpened] = useState(false);
  const [reason, setReason] = useState('');
  const cancel = useChange(cancelJob, `Job ${job.number} is cancelled.`, () => setOpened(false));
  return (
    <>
      <Button variant="default" onClick={() => setOpened(true)}>
        Cancel the job
      </Button>
      <ConfirmDialog
        opened={opened}
        title={`Cancel job ${job.number}`}
        act="Cancel the job"
        busy={cancel.isPending}
        error={cancel.error}
        onClose={() => setOpened(false)}
        onConfirm={() => cancel.mutate({ id: job.id, version: job.version, reason })}
      >
        <p>
          The pair is free again, and nothing more is asked of anybody.
          {job.state === 'booked'
            ? ' The invoice is withdrawn; what was paid on it is to be given back. The links to sign are closed, and the client is told by mail.'
            : ''}{' '}
          This cannot be taken back.
        </p>
        <Textarea
          label="Reason"
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
          maxLength={1000}
          autosize
          minRows={2}
          required
        />
      </ConfirmDialog>
    </>
  );
}
