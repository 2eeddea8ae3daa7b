// Every job, newest first: by number, address or name, by state, or only those with something still to get. The URL holds the choice.
import type { ReactNode } from 'react';
import { Checkbox, Group, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { JOB_STATES, NEED_KINDS, type JobLine, type JobState } from '@backsight/contract/jobs';
import { jobsQuery } from '../../api/jobs.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';

const route = getRouteApi('/shell/jobs');

const COLUMNS: Column<JobLine>[] = [
  {
    key: 'job',
    head: 'Job',
    cell: ({ id, number, address, town }) => (
      <TextLink to="/jobs/$jobId" params={{ jobId: id }}>
        {number} · {address}, {town}
      </TextLink>
    ),
  },
  { key: 'client', head: 'Client', cell: ({ client }) => client ?? 'not known yet' },
  {
    key: 'when',
    head: 'Start',
    cell: ({ startsAt, pair }) =>
      startsAt ? (
        <>
          <When at={startsAt} />
          {pair.length > 0 ? (
            <>
              <br />
              {pair.join(' and ')}
            </>
          ) : null}
        </>
      ) : (
        'none'
      ),
  },
  { key: 'state', head: 'State', oneLine: true, cell: ({ state }) => JOB_STATES[state] },
  { key: 'open', head: 'Still to get', cell: ({ openNeeds }) => openNeeds.map((kind) => NEED_KINDS[kind]).join(', ') || 'nothing' },
  { key: 'fee', head: 'Fee', align: 'right', cell: ({ totalCents }) => <Money cents={totalCents} /> },
];

export function JobsPage(): ReactNode {
  const { q, state, open, cursor } = route.useSearch();
  const mayBook = useMe().roles.some((role) => role !== 'inspector');
  const navigate = route.useNavigate();
  const jobs = useQuery(
    jobsQuery({ text: q ?? '', stillToGet: open ? 'yes' : 'no', limit: 50, ...(state ? { state } : {}), ...(cursor ? { cursor } : {}) }),
  );
  const choose = (change: { q?: string; state?: JobState; open?: boolean }) =>
    void navigate({ search: (before) => ({ ...before, ...change, cursor: undefined }), replace: true });
  return (
    <Page
      title="Jobs"
      about="Every job, and what is still to get before the pair goes out."
      actions={mayBook ? <ButtonLink to="/book">Book a job</ButtonLink> : undefined}
    >
      <Group mb="md" gap="sm" align="flex-end" role="search" aria-label="Jobs">
        <TextInput
          label="Search"
          type="search"
          placeholder="Number, address or name"
          w={{ base: '100%', xs: 280 }}
          value={q ?? ''}
          onChange={(event) => choose({ q: event.currentTarget.value || undefined })}
        />
        <NativeSelect
          label="State"
          w={{ base: '100%', xs: 160 }}
          value={state ?? ''}
          onChange={(event) => choose({ state: (event.currentTarget.value || undefined) as JobState | undefined })}
          data={[{ value: '', label: 'Any state' }, ...Object.entries(JOB_STATES).map(([value, label]) => ({ value, label }))]}
        />
        <Checkbox
          label="Something still to get"
          mb={8}
          checked={open ?? false}
          onChange={(event) => choose({ open: event.currentTarget.checked || undefined })}
        />
      </Group>
      <ProblemNote of={jobs.error} />
      {jobs.isPending ? <Loading /> : null}
      {jobs.data?.items.length === 0 ? (
        <Empty action={<TextLink to="/jobs">Show all jobs</TextLink>}>No job fits this search.</Empty>
      ) : null}
      {jobs.data && jobs.data.items.length > 0 ? (
        <DataTable caption="Jobs" columns={COLUMNS} rows={jobs.data.items} rowKey={({ id }) => id} />
      ) : null}
      {jobs.data?.next ? (
        <p>
          <TextLink to="/jobs" search={{ q, state, open, cursor: jobs.data.next }}>
            Older jobs
          </TextLink>
        </p>
      ) : null}
    </Page>
  );
}
