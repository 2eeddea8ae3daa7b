// Takes in a callback, a question or a near-miss, from the job that it is about.
import { useState, type ReactNode } from 'react';
import { Button, Stack, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { FoundJob } from '@backsight/contract/callbacks';
import { JOB_KINDS } from '@backsight/contract/jobs';
import { foundJobsQuery } from '../../api/callbacks.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';
import { IntakeForm } from './IntakeForm.tsx';

type JobKind = keyof typeof JOB_KINDS;
const route = getRouteApi('/shell/callbacks/new');

export function IntakePage(): ReactNode {
  const search = route.useSearch();
  const [job, setJob] = useState<FoundJob | null>(null);
  return (
    <Page
      title="Take in a callback"
      width="narrow"
      about="A question about the report is logged as a question. It counts as a callback only when somebody says that something was missed, mis-stated or damaged."
    >
      {job ? (
        <IntakeForm job={job} {...(search.kind ? { kind: search.kind } : {})} onOther={() => setJob(null)} />
      ) : (
        <FindJob first={search.job ?? ''} onFound={setJob} />
      )}
    </Page>
  );
}

function FindJob({ first, onFound }: { first: string; onFound: (job: FoundJob) => void }): ReactNode {
  const [text, setText] = useState(first);
  const jobs = useQuery(foundJobsQuery(text));
  const columns: Column<FoundJob>[] = [
    {
      key: 'job',
      head: 'Job',
      cell: (j) => <Button variant="default" size="compact-sm" onClick={() => onFound(j)}>{`Job ${j.number}`}</Button>,
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
        label="Which job is it about?"
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
