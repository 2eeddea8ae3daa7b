// The callbacks of the firm: open ones by danger and due time.
import type { ReactNode } from 'react';
import { Group, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { KINDS, SPEAKERS, STATES, type CallbackLine } from '@backsight/contract/callbacks';
import { callbacksQuery } from '../../api/callbacks.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day, When } from '../../ui/When.tsx';
import { clockText, judges, options } from './words.ts';

const route = getRouteApi('/shell/callbacks');

const columns = (zone: string): Column<CallbackLine>[] => [
  {
    key: 'number',
    head: 'Number',
    cell: (c) => (
      <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>
        {c.number}
      </TextLink>
    ),
  },
  {
    key: 'what',
    head: 'What',
    cell: (c) => (
      <>
        {c.safety ? (
          <>
            <strong>Danger</strong>:{' '}
          </>
        ) : null}
        {KINDS[c.kind]}
        <br />
        {c.place}
      </>
    ),
  },
  {
    key: 'due',
    head: 'Due',
    cell: (c) =>
      c.deadlineOn ? (
        <>
          Paper: answer by <Day day={c.deadlineOn} />
        </>
      ) : (
        clockText(c.clock, zone) || 'no clock runs'
      ),
  },
  { key: 'state', head: 'State', cell: (c) => STATES[c.state] },
  { key: 'who', head: 'Who speaks', cell: (c) => `${SPEAKERS[c.speaker]}${c.party ? `: ${c.party}` : ''}` },
  { key: 'where', head: 'Property', cell: (c) => `${c.address}, ${c.town} (job ${c.jobNumber})` },
  { key: 'received', head: 'Received', cell: (c) => <When at={c.receivedAt} /> },
];

export function CallbacksPage(): ReactNode {
  const me = useMe();
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const which = search.which ?? 'open';
  const list = useQuery(
    callbacksQuery({ which, ...(search.kind ? { kind: search.kind } : {}), ...(search.before ? { before: search.before } : {}) }),
  );
  const set = (change: object) => void navigate({ search: (before) => ({ ...before, before: undefined, ...change }) });
  const actions = (
    <>
      {judges(me.roles) ? (
        <ButtonLink to="/corrective-actions" variant="default">
          Corrective actions
        </ButtonLink>
      ) : null}
      <ButtonLink to="/callbacks/new">Take one in</ButtonLink>
    </>
  );
  return (
    <Page
      title="Callbacks"
      about="Anything brought against the firm's work, questions, and near-misses. Danger first, then what is due first."
      actions={actions}
    >
      <Group mb="md" align="end">
        <NativeSelect
          label="Show"
          value={which}
          onChange={(e) => set({ which: e.currentTarget.value })}
          data={[
            { value: 'open', label: 'Open' },
            { value: 'closed', label: 'Closed' },
            { value: 'all', label: 'All' },
          ]}
        />
        <NativeSelect
          label="Kind"
          value={search.kind ?? ''}
          onChange={(e) => set({ kind: e.currentTarget.value || undefined })}
          data={[{ value: '', label: 'Every kind' }, ...options(KINDS)]}
        />
      </Group>
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {list.data?.items.length === 0 ? <Empty>{which === 'open' ? 'Nothing is open.' : 'There are none.'}</Empty> : null}
      {list.data && list.data.items.length > 0 ? (
        <DataTable caption="Callbacks" columns={columns(me.zone)} rows={list.data.items} rowKey={(c) => c.id} />
      ) : null}
      {list.data?.next ? (
        <ButtonLink to="/callbacks" search={{ ...search, before: Number(list.data.next) }} variant="default" mt="md">
          Older ones
        </ButtonLink>
      ) : null}
    </Page>
  );
}
