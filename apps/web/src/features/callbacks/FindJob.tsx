// Finds the job that something is about, by number, address, town or a name.
import { useState, type ReactNode } from 'react';
import { Button, Stack, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { FoundJob } from '@backsight/contract/callbacks';
import { JOB_KINDS } from '@backsight/contract/jobs';
import { foundJobsQuery } from '../../api/callbacks.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';

type JobKind = keyof typeof JOB_KINDS;
type Props = { label: string; first: string; visitedOnly: boolean; onFound: (job: FoundJob) => void };

/** With `visitedOnly` a job where nobody has been cannot be chosen. */
export function FindJob({ label, first, visitedOnly, onFound }: Props): ReactNode {
  const [text, setText] = useState(first);
  const jobs = useQuery(foundJobsQuery(text));
  const columns: Column<FoundJob>[] = [
    {
      key: 'job',
      head: 'Job',
      cell: (j) =>
        visitedOnly && !j.inspectedOn ? (
          `Job ${j.number}`
        ) : (
          <Button variant="default" size="compact-sm" onClick={() => onFound(j)}>{`Job ${j.number}`}</Button>
        ),
    },
    {
      key: 'where',
      head: 'Property',
      cell: (j) => `${j.address}, ${j.town}${j.kind === 'inspection' ? '' : ` (${JOB_KINDS[j.kind as JobKind]})`}`,
    },
    { key: 'when', head: 'Inspected', cell: (j) => (j.inspectedOn ? <Day day={j.inspectedOn} /> : 'not yet') },
    { key: 'who', head: 'People', cell: (j) => [...new Set(j.parties.map(({ name }) => name))].join(', ') },
  ];
  return (
    <Stack>
      <TextInput
        label={label}
        description="Number, address, town or a name"
        value={text}
        onChange={(e) => setText(e.currentTarget.value)}
        autoFocus
      />
      <ProblemNote of={jobs.error} />
      {jobs.data?.length === 0 ? <Empty>No job fits these words.</Empty> : null}
      {jobs.data && jobs.data.length > 0 ? (
        <DataTable caption="Jobs found" columns={columns} rows={jobs.data} rowKey={(j) => j.id} />
      ) : null}
    </Stack>
  );
}
