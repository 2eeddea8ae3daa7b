// Whom to call: everybody with a visit in the next days, what to mind, how they were reached last, and a call logged in two keys.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { CHANNELS, OUTCOMES, type PersonToReach } from '@backsight/contract/mail/contacts';
import { PARTY_ROLES } from '@backsight/contract/jobs';
import { toCallQuery } from '../../api/contacts.ts';
import { LogContact } from '../../ui/contacts/LogContact.tsx';
import { PrepareText } from '../../ui/contacts/PrepareText.tsx';
import { reachWords } from '../../ui/contacts/reach.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';

const COLUMNS: Column<PersonToReach>[] = [
  { key: 'name', head: 'Who', cell: ({ name, role }) => `${name}, ${PARTY_ROLES[role]}` },
  {
    key: 'job',
    head: 'Visit',
    cell: ({ jobId, jobNumber, address, startsAt }) => (
      <>
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          {jobNumber}, {address}
        </TextLink>
        {startsAt ? (
          <>
            , <When at={startsAt} />
          </>
        ) : null}
      </>
    ),
  },
  { key: 'mind', head: 'Mind', cell: (person) => reachWords(person) || 'nothing' },
  {
    key: 'phone',
    head: 'Phone',
    cell: ({ phone, name, text }) =>
      phone ? (
        <>
          <a href={`tel:${phone.replace(/[^\d+]/g, '')}`}>{phone}</a> <PrepareText name={name} phone={phone} text={text} />
        </>
      ) : (
        'none'
      ),
  },
  {
    key: 'last',
    head: 'Last',
    cell: ({ last }) =>
      last ? (
        <>
          {CHANNELS[last.channel]}, {OUTCOMES[last.outcome]}, <When at={last.at} />
        </>
      ) : (
        <span style={{ whiteSpace: 'nowrap' }}>not called yet</span>
      ),
  },
  { key: 'log', head: 'Log', cell: ({ jobId, partyId, name }) => <LogContact jobId={jobId} people={[{ partyId, name }]} compact /> },
];

const route = getRouteApi('/shell/contacts');

export function ContactsPage(): ReactNode {
  const { days = 3 } = route.useSearch();
  const navigate = route.useNavigate();
  const found = useQuery(toCallQuery(days));
  return (
    <Page
      title="People to call"
      about="Everybody with a visit in the next days. Enter on Log opens it; then R reached, L left word, N no answer."
    >
      <ProblemNote of={found.error} />
      <NativeSelect
        label="Visits in the next"
        maw="12rem"
        mb="md"
        value={String(days)}
        data={['1', '3', '7', '14'].map((value) => ({ value, label: value === '1' ? 'day' : `${value} days` }))}
        onChange={(event) => void navigate({ search: { days: Number(event.currentTarget.value) }, replace: true })}
      />
      {found.isPending ? <Loading /> : null}
      {found.data?.length === 0 ? <Empty>No visit is booked in these days.</Empty> : null}
      {found.data && found.data.length > 0 ? (
        <DataTable
          caption="People to call"
          columns={COLUMNS}
          rows={found.data}
          rowKey={({ jobId, partyId, role }) => `${jobId} ${partyId} ${role}`}
        />
      ) : null}
    </Page>
  );
}
