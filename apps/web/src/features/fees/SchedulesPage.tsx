// Fee schedules: which one is in force from when, and beginning a draft as a copy.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { ScheduleLine } from '@backsight/contract/fees/schedules';
import { draftSchedule, schedulesQuery } from '../../api/feeSetUp.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

const stateOf = ({ state, now, inForceFrom }: ScheduleLine): ReactNode => {
  if (state !== 'in_force') return state === 'draft' ? 'draft' : 'withdrawn before it began';
  if (now) return <strong>in force</strong>;
  return Date.parse(inForceFrom!) > Date.now() ? 'begins' : 'was in force';
};

const COLUMNS: Column<ScheduleLine>[] = [
  {
    key: 'name',
    head: 'Schedule',
    cell: ({ id, number, name }) => <TextLink to="/fee-schedules/$scheduleId" params={{ scheduleId: id }}>{`${number}. ${name}`}</TextLink>,
  },
  { key: 'state', head: 'State', cell: stateOf },
  { key: 'from', head: 'From', cell: ({ inForceFrom }) => (inForceFrom ? <When at={inForceFrom} /> : 'not set') },
  { key: 'rules', head: 'Rules', align: 'right', cell: ({ rules }) => rules },
  { key: 'jobs', head: 'Jobs booked by it', align: 'right', cell: ({ jobs }) => jobs.toLocaleString('en-US') },
];

export function SchedulesPage(): ReactNode {
  const { roles } = useMe();
  const list = useQuery(schedulesQuery);
  const current = list.data?.items.find(({ now }) => now);
  return (
    <Page title="Fee schedules" about="What a job costs, by dated rules. A job keeps the schedule by which it was booked.">
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {list.data ? <DataTable caption="Fee schedules" columns={COLUMNS} rows={list.data.items} rowKey={({ id }) => id} /> : null}
      {current && roles.includes('owner') ? <Begin copyOf={current} /> : null}
    </Page>
  );
}

function Begin({ copyOf }: { copyOf: ScheduleLine }): ReactNode {
  const navigate = useNavigate();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const [name, setName] = useState('');
  const begin = useSend(draftSchedule, {
    refresh: ['fee-schedules'],
    said: 'The draft was begun.',
    then: ({ id }) => void navigate({ to: '/fee-schedules/$scheduleId', params: { scheduleId: id } }),
  });
  return (
    <Section title="Draft another">
      <ProblemNote of={begin.error} />
      <Group align="flex-end">
        <TextInput
          label="Name of the draft"
          value={name}
          maxLength={80}
          required
          onChange={(event) => setName(event.currentTarget.value)}
        />
        <Button loading={begin.isPending} onClick={() => begin.mutate({ ...ids, name, copyOf: copyOf.id })}>
          Copy what is in force into a draft
        </Button>
      </Group>
    </Section>
  );
}
