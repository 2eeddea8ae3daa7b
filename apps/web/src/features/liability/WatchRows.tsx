// Overrides and jobs held as evidence, one by one.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { MISSING, type HeldJobRow, type OverrideRow } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { heldJobsQuery, overridesQuery } from '../../api/owner.ts';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { TableFiles } from './TableFiles.tsx';

const route = getRouteApi('/shell/liabilities/overrides');
const job = (row: { jobId: string; jobNumber: number }): ReactNode => (
  <TextLink to="/jobs/$jobId" params={{ jobId: row.jobId }}>{`Job ${row.jobNumber}`}</TextLink>
);
const OVERRIDES: Column<OverrideRow>[] = [
  { key: 'job', head: 'Job', oneLine: true, cell: job },
  { key: 'kind', head: 'What was let through', cell: (row) => (row.kind === 'start' ? 'a visit started' : 'a report left') },
  { key: 'missing', head: 'What was missing', cell: (row) => row.missing.map((code) => MISSING[code] ?? code).join(', ') },
  { key: 'reason', head: 'Reason', sentences: true, cell: (row) => row.reason },
  { key: 'by', head: 'Who', cell: (row) => row.by },
  { key: 'at', head: 'When', cell: (row) => <When at={row.happenedAt} /> },
];
const HELD: Column<HeldJobRow>[] = [
  { key: 'job', head: 'Job', oneLine: true, cell: job },
  { key: 'where', head: 'Property', cell: (row) => `${row.address}, ${row.town}` },
  { key: 'callbacks', head: 'Held by open callbacks', cell: (row) => row.callbacks.join(', ') || 'none' },
  {
    key: 'hand',
    head: 'Held by hand',
    cell: (row) =>
      row.byHandSince ? (
        <>
          {'since '}
          <When at={row.byHandSince} />
          {row.by ? `, ${row.by}` : ''}
        </>
      ) : (
        'no'
      ),
  },
];

export function OverridesPage(): ReactNode {
  const search = route.useSearch();
  const { data, error, isPending } = useQuery(overridesQuery(search));
  return (
    <Page
      title="Overrides"
      about={`Starts and reports let through though something was missing${search.from ? `, ${search.from} to ${search.to ?? 'today'}` : ''}.`}
      actions={<TextLink to="/liabilities">Liabilities</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.items.length === 0 ? <Empty>None was used.</Empty> : null}
      {data && data.items.length > 0 ? (
        <>
          <p>
            <TableFiles csv={tableAddress(ownerTables.overrides, 'overrides', search)} rows={data.items.length} />
          </p>
          <DataTable caption="Overrides" columns={OVERRIDES} rows={data.items} rowKey={(row) => row.id} />
        </>
      ) : null}
    </Page>
  );
}

export function HeldJobsPage(): ReactNode {
  const { data, error, isPending } = useQuery(heldJobsQuery);
  return (
    <Page
      title="Jobs held as evidence"
      about="Nothing of these jobs is erased or taken away while they are held."
      actions={<TextLink to="/liabilities">Liabilities</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.items.length === 0 ? <Empty>No job is held.</Empty> : null}
      {data && data.items.length > 0 ? (
        <>
          <p>
            <TableFiles csv={tableAddress(ownerTables.held, 'jobs')} />
          </p>
          <DataTable caption="Jobs held as evidence" columns={HELD} rows={data.items} rowKey={(row) => row.jobId} />
        </>
      ) : null}
    </Page>
  );
}
