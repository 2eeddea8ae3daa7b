// The inspections behind a number of claim windows, and those that began before every signature was there.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { WINDOW_PARTS, windowTables, type WindowJobRow, type WindowPart } from '@backsight/contract/liability/windows';
import { shortUsd } from '@backsight/domain/shared/money';
import { unsignedStartsQuery, windowJobsQuery, type WindowJobsSearch } from '../../api/owner.ts';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { counted, monthText, shortDay } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';

const route = getRouteApi('/shell/liabilities/windows/jobs');
const startsRoute = getRouteApi('/shell/liabilities/unsigned-starts');
const day = (of: string | null, none: string): string => (of ? shortDay(of) : none);
const COLUMNS: Column<WindowJobRow>[] = [
  {
    key: 'job',
    head: 'Job',
    oneLine: true,
    cell: (row) => (
      <TextLink to="/jobs/$jobId" params={{ jobId: row.jobId }}>
        {row.jobNumber}
      </TextLink>
    ),
  },
  { key: 'where', head: 'Property', cell: (row) => `${row.address}, ${row.town}` },
  { key: 'inspected', head: 'Inspected', oneLine: true, cell: (row) => shortDay(row.inspectedOn) },
  { key: 'delivered', head: 'Handed over', oneLine: true, cell: (row) => day(row.deliveredOn, 'not yet') },
  { key: 'short', head: 'Claims until', oneLine: true, cell: (row) => day(row.shortUntil, 'no rule') },
  { key: 'long', head: 'at the longest', oneLine: true, cell: (row) => day(row.longUntil, 'no rule') },
  {
    key: 'cap',
    head: 'Limit agreed',
    align: 'right',
    cell: (row) =>
      !row.signed ? (
        'not signed'
      ) : row.capCents === null ? (
        'none'
      ) : (
        <>
          {<Money cents={row.capCents} />}
          {row.capBarred ? ' (barred by the state)' : ''}
        </>
      ),
  },
  {
    key: 'held',
    head: 'Held',
    cell: (row) => (row.openCallbacks.length > 0 ? `callback ${row.openCallbacks.join(', ')}` : row.held ? 'yes' : 'no'),
  },
];

function narrowed({ inspected, closes, by, only }: WindowJobsSearch): string {
  const month = (text: string): string => (/^\d{4}-\d{2}$/.test(text) ? monthText(text) : text);
  const parts = [
    only === 'all' ? 'Inspections' : 'Inspections whose claim window is open',
    inspected ? `of ${month(inspected)}` : null,
    closes ? `and closes in ${month(closes)} by the ${by === 'short' ? 'shortest' : 'longest'} reading` : null,
    only && only !== 'all' ? WINDOW_PARTS[only as WindowPart] : null,
  ];
  return `${parts.filter(Boolean).join(', ')}. Not legal advice.`;
}

export function WindowJobsPage(): ReactNode {
  const search = route.useSearch();
  const { data, error, isPending } = useQuery(windowJobsQuery(search));
  return (
    <Page
      title="Inspections behind claim windows"
      about={narrowed(search)}
      actions={<TextLink to="/liabilities/windows">Claim windows</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.items.length === 0 ? <Empty>None fits.</Empty> : null}
      {data && data.items.length > 0 ? (
        <>
          <p>
            {`${counted(data.total, 'job')}${data.capCents > 0 ? `, limits of ${shortUsd(data.capCents)}` : ''}. `}
            <TableFiles csv={tableAddress(windowTables.jobs, 'jobs', search)} />
          </p>
          <DataTable caption="Inspections behind claim windows" columns={COLUMNS} rows={data.items} rowKey={(row) => row.jobId} />
        </>
      ) : null}
      {data?.next ? (
        <ButtonLink to="/liabilities/windows/jobs" search={{ ...search, page: data.next }} variant="default" mt="md">
          Earlier ones
        </ButtonLink>
      ) : null}
    </Page>
  );
}

export function UnsignedStartsPage(): ReactNode {
  const search = startsRoute.useSearch();
  const { data, error, isPending } = useQuery(unsignedStartsQuery(search));
  const about = `Inspections that began before everybody who must had signed${search.from ? `, ${search.from} to ${search.to ?? 'today'}` : ''}.`;
  return (
    <Page title="Unsigned at the start" about={about} actions={<TextLink to="/liabilities">Liabilities</TextLink>}>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.items.length === 0 ? <Empty>None began without its agreement.</Empty> : null}
      {data && data.items.length > 0 ? (
        <>
          <p>
            {`${counted(data.items.length, 'job')}. `}
            <TableFiles csv={tableAddress(windowTables.unsignedStarts, 'jobs', search)} rows={data.items.length} />
          </p>
          <DataTable caption="Inspections unsigned at the start" columns={COLUMNS} rows={data.items} rowKey={(row) => row.jobId} />
        </>
      ) : null}
    </Page>
  );
}
