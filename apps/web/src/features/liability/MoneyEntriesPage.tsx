// Ledger entries of callbacks behind a sum, with the sum of all that fit.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { MoneyEntryRow } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { moneyEntriesQuery, type EntriesSearch } from '../../api/owner.ts';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';
import { dayText } from '../../ui/time.ts';
import { monthText } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';

const route = getRouteApi('/shell/liabilities/entries');
const money = (key: string, head: string, of: (row: MoneyEntryRow) => number): Column<MoneyEntryRow> => ({
  key,
  head,
  align: 'right',
  cell: (row) => (of(row) === 0 ? '' : <Money cents={of(row)} />),
});
const COLUMNS: Column<MoneyEntryRow>[] = [
  { key: 'day', head: 'Day in the books', oneLine: true, cell: (row) => <Day day={row.happenedOn} /> },
  {
    key: 'callback',
    head: 'Callback',
    oneLine: true,
    cell: (row) => (
      <TextLink to="/callbacks/$callbackId" params={{ callbackId: row.callbackId }}>
        {row.callbackNumber}
      </TextLink>
    ),
  },
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
  { key: 'memo', head: 'What', cell: (row) => row.memo },
  money('paid', 'Paid', (row) => row.paidCents),
  money('reserved', 'Set aside', (row) => row.reservedCents),
  money('recovered', 'Recovered', (row) => row.recoveredCents),
  money('incurred', 'Incurred', (row) => row.incurredCents),
];

/** What the address narrows to, in words; a wrong word is told by the service. */
function narrowed({ from, to, inspected }: EntriesSearch): string {
  const month = inspected && /^\d{4}-\d{2}$/.test(inspected) ? ` about jobs inspected in ${monthText(inspected)}` : '';
  const day = (text: string): string => (/^\d{4}-\d{2}-\d{2}$/.test(text) ? dayText(text) : text);
  const days = from && to ? `, ${day(from)} to ${day(to)}` : from ? `, from ${day(from)}` : to ? `, until ${day(to)}` : '';
  return `Ledger entries of callbacks${month}${days || (month ? '' : ', since the start')}.`;
}

export function MoneyEntriesPage(): ReactNode {
  const search = route.useSearch();
  const { data, error, isPending } = useQuery(moneyEntriesQuery(search));
  return (
    <Page title="Money of callbacks" about={narrowed(search)} actions={<TextLink to="/liabilities">Liabilities</TextLink>}>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          <Details
            short
            rows={[
              ['Paid', <Money cents={data.total.paidCents} />],
              ['Set aside, less released', <Money cents={data.total.reservedCents} />],
              ['Recovered', <Money cents={data.total.recoveredCents} />],
              ['Incurred', <Money cents={data.total.incurredCents} />],
            ]}
          />
          {data.items.length === 0 ? (
            <Empty>No entry fits.</Empty>
          ) : (
            <>
              <p>
                <TableFiles csv={tableAddress(ownerTables.entries, 'entries', search)} />
              </p>
              <DataTable
                caption="Ledger entries of callbacks"
                columns={COLUMNS}
                rows={data.items}
                rowKey={(row) => row.entryId + row.callbackId}
              />
            </>
          )}
          {data.next ? (
            <ButtonLink to="/liabilities/entries" search={{ ...search, after: data.next }} variant="default" mt="md">
              Earlier ones
            </ButtonLink>
          ) : null}
        </>
      ) : null}
    </Page>
  );
}
