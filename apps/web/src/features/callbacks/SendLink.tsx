// Mails a client the private link, to report it in writing and with photos.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import type { FoundJob } from '@backsight/contract/callbacks';
import { sendReportLink } from '../../api/callbackIntake.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';

/** Only clients who have an address can have one. */
export function SendLink({ job }: { job: FoundJob }): ReactNode {
  const [to, setTo] = useState('');
  const send = useSend(sendReportLink, { refresh: ['mail'], said: 'The mail with the link is in the outbox.' });
  const clients = job.parties.filter(({ role, hasEmail }) => role === 'client' && hasEmail);
  if (clients.length === 0) return null;
  return (
    <div>
      <ProblemNote of={send.error} />
      <Group gap="sm">
        {clients.map(({ id, name }) => (
          <Button
            key={id}
            variant="default"
            loading={send.isPending && to === id}
            onClick={() => {
              setTo(id);
              send.mutate({ jobId: job.id, partyId: id });
            }}
          >
            {`Mail ${name} the link to report it`}
          </Button>
        ))}
      </Group>
      {send.isSuccess ? <p role="status">Sent. A link sent before opens nothing any more.</p> : null}
    </div>
  );
}
