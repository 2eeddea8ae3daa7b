// Cancels a job, with the reason.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { deskQuery } from '../../api/desk.ts';
import { cancelJob } from '../../api/jobs.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { LateFee } from './LateFee.tsx';
import { TellProviders } from './TellProviders.tsx';
import { useChange } from './useChange.ts';

export function CancelJob({ job }: { job: Job }): ReactNode {
  const [opened, setOpened] = useState(false);
  const {
    values: { reason },
    setValues,
    draft,
  } = useDraft({ reason: '' }, 'cancel');
  const [waiver, setWaiver] = useState<string | null>(null);
  const late = useQuery(deskQuery(job.id)).data?.lateCancel ?? null;
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
        onConfirm={() =>
          whileSending(draft, () =>
            cancel.mutate({ id: job.id, version: job.version, reason, waive: waiver !== null, waiver: waiver ?? '' }),
          )
        }
      >
        <Kept draft={draft} />
        <p>
          The pair is free again, and nothing more is asked of anybody.
          {job.state === 'booked' && !late
            ? ' The invoice is withdrawn; what was paid on it is to be given back. The links to sign are closed, and the client is told by mail.'
            : ''}{' '}
          This cannot be taken back.
        </p>
        {job.state === 'booked' ? <TellProviders job={job} /> : null}
        {late ? <LateFee late={late} what="cancelled" waiver={waiver} onChange={setWaiver} /> : null}
        <Textarea
          label="Reason"
          data-autofocus
          value={reason}
          onChange={(event) => setValues({ reason: event.currentTarget.value })}
          maxLength={1000}
          autosize
          minRows={2}
          required
        />
      </ConfirmDialog>
    </>
  );
}
