// How a wording, saved or not, reads for a real job.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import type { WordingShown } from '@backsight/contract/mail/wordings';
import { toCallQuery } from '../../api/contacts.ts';
import { previewWording } from '../../api/mail.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';

type Props = { kind: WordingShown['kind']; words: { subject: string; body: string } };

export function WordingPreview({ kind, words }: Props): ReactNode {
  const people = useQuery(toCallQuery(14));
  const jobs = [...new Map((people.data ?? []).map((one) => [one.jobId, one])).values()];
  const [chosen, setChosen] = useState('');
  const look = useMutation({ mutationFn: previewWording });
  const jobId = chosen || jobs[0]?.jobId;
  return (
    <Section title="Look at it with a job">
      <ProblemNote of={look.error ?? people.error} />
      {people.data && jobs.length === 0 ? <Empty>No job is booked for the next two weeks.</Empty> : null}
      {jobId ? (
        <Group align="flex-end">
          <NativeSelect
            label="Job"
            value={jobId}
            data={jobs.map((one) => ({ value: one.jobId, label: `${one.jobNumber}, ${one.address}` }))}
            onChange={(event) => setChosen(event.currentTarget.value)}
          />
          <Button variant="default" loading={look.isPending} onClick={() => look.mutate({ kind, ...words, jobId })}>
            Look at it
          </Button>
        </Group>
      ) : null}
      {look.data ? (
        <div style={{ border: '1px solid var(--bs-line)', padding: 'var(--bs-space-6)', marginTop: 'var(--bs-space-6)' }}>
          <p>
            <strong>{look.data.subject}</strong>
          </p>
          <pre style={{ whiteSpace: 'pre-wrap', overflowWrap: 'anywhere', font: 'inherit', margin: 0 }}>{look.data.body}</pre>
        </div>
      ) : null}
    </Section>
  );
}
