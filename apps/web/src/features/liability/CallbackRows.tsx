// Callbacks behind a number of the owner's page: open ones by state and age, or those about jobs of one month.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { KINDS, STATES } from '@backsight/contract/callbacks';
import { OPEN_AGES, type OpenAge, type OpenCallbackRow } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { monthCallbacksQuery, openCallbacksQuery } from '../../api/owner.ts';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { counted, monthText } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';

const openRoute = getRouteApi('/shell/liabilities/open-callbacks');
const monthRoute = getRouteApi('/shell/liabilities/callbacks');
const stateText = (state: string): string => STATES[state as keyof typeof STATES] ?? state;
const COLUMNS: Column<OpenCallbackRow>[] = [
  {
    key: 'number',
    head: 'Callback',
    oneLine: true,
    cell: (row) => (
      <TextLink to="/callbacks/$callbackId" params={{ callbackId: row.id }}>
        {row.number}
      </TextLink>
    ),
  },
  { key: 'kind', head: 'Kind', cell: (row) => KINDS[row.kind as keyof typeof KINDS] ?? row.kind },
  { key: 'state', head: 'State', cell: (row) => stateText(row.state) },
  { key: 'where', head: 'Property', cell: (row) => `${row.address}, ${row.town}` },
  { key: 'received', head: 'Received', cell: (row) => <When at={row.receivedAt} /> },
  { key: 'days', head: 'Days ago', align: 'right', cell: (row) => row.days },
  { key: 'reserved', head: 'Set aside', align: 'right', cell: (row) => <Money cents={row.reservedCents} /> },
  { key: 'paid', head: 'Paid', align: 'right', cell: (row) => <Money cents={row.paidCents} /> },
];

type Rows = { data: { items: OpenCallbackRow[] } | undefined; error: Error | null; isPending: boolean };

type Props = { title: string; about: string; table: string; rows: Rows };

function CallbackRows({ title, about, table, rows: { data, error, isPending } }: Props): ReactNode {
  return (
    <Page title={title} about={about} actions={<TextLink to="/liabilities">Liabilities</TextLink>}>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.items.length === 0 ? <Empty>None.</Empty> : null}
      {data && data.items.length > 0 ? (
        <>
          <p>
            {`${counted(data.items.length, 'callback')}. `}
            <TableFiles csv={table} rows={data.items.length} />
          </p>
          <DataTable caption={title} columns={COLUMNS} rows={data.items} rowKey={(row) => row.id} />
        </>
      ) : null}
    </Page>
  );
}

export function OpenCallbacksPage(): ReactNode {
  const search = openRoute.useSearch();
  const parts = [search.state ? stateText(search.state) : null, search.age ? (OPEN_AGES[search.age as OpenAge] ?? search.age) : null];
  const about = `Questions and near-misses left out${parts.some(Boolean) ? `; ${parts.filter(Boolean).join(', ')}` : ''}. The oldest first.`;
  const table = tableAddress(ownerTables.openCallbacks, 'callbacks', search);
  return <CallbackRows title="Open callbacks" about={about} table={table} rows={useQuery(openCallbacksQuery(search))} />;
}

export function MonthCallbacksPage(): ReactNode {
  const { inspected = '' } = monthRoute.useSearch();
  const said = /^\d{4}-(0[1-9]|1[0-2])$/.test(inspected);
  const rows = useQuery({ ...monthCallbacksQuery({ inspected }), enabled: said });
  if (!said)
    return (
      <Page title="Callbacks by month of inspection" about="The callbacks about jobs that were inspected in one month.">
        <Empty action={<TextLink to="/liabilities">Choose a month under Liabilities</TextLink>}>
          {inspected === '' ? 'No month is named in this address.' : `"${inspected}" is no month; one is named like 2026-05.`}
        </Empty>
      </Page>
    );
  return (
    <CallbackRows
      title="Callbacks by month of inspection"
      about={`About jobs inspected in ${monthText(inspected)}, open or closed; questions, near-misses and duplicates left out.`}
      table={tableAddress(ownerTables.callbacks, 'callbacks', { inspected })}
      rows={rows}
    />
  );
}
