// The owner's look at the books: every account with its balance on a day, and the entries behind them.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { LedgerEntryShown, TrialBalance } from '@backsight/contract/fees';
import { formatUsd } from '@backsight/domain/shared/money';
import { entriesQuery, trialBalanceQuery } from '../../api/fees.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';

const route = getRouteApi('/shell/ledger');
type Row = TrialBalance['rows'][number];

const ACCOUNTS: Column<Row>[] = [
  { key: 'name', head: 'Account', cell: ({ name }) => name },
  { key: 'debit', head: 'Debit', align: 'right', cell: ({ debit }) => (debit ? <Money cents={debit} /> : '') },
  { key: 'credit', head: 'Credit', align: 'right', cell: ({ credit }) => (credit ? <Money cents={credit} /> : '') },
];

const ENTRIES: Column<LedgerEntryShown>[] = [
  { key: 'memo', head: 'What', cell: ({ memo }) => memo },
  { key: 'on', head: 'Day', oneLine: true, cell: ({ happenedOn }) => <Day day={happenedOn} /> },
  {
    key: 'lines',
    head: 'Lines (debit positive)',
    cell: ({ lines }) => lines.map(({ account, cents }) => `${account.replaceAll('-', ' ')} ${formatUsd(cents)}`).join('; '),
  },
];

export function LedgerPage(): ReactNode {
  const { until } = route.useSearch();
  const navigate = route.useNavigate();
  const balance = useQuery(trialBalanceQuery(until));
  return (
    <Page title="Ledger" about="Trial balance: every account on the side where it stands. Both sides have the same sum.">
      <TextInput
        type="date"
        label="Up to and including"
        maw="14rem"
        mb="md"
        value={until ?? balance.data?.until ?? ''}
        onChange={(event) => void navigate({ search: { until: event.currentTarget.value || undefined }, replace: true })}
      />
      <ProblemNote of={balance.error} />
      {balance.isPending ? <Loading /> : null}
      {balance.data ? (
        <DataTable
          caption="Trial balance"
          columns={ACCOUNTS}
          rows={[
            ...balance.data.rows,
            { account: 'sum', name: 'Together', kind: 'sum', debit: balance.data.debit, credit: balance.data.credit },
          ]}
          rowKey={({ account }) => account}
        />
      ) : null}
      <Entries />
    </Page>
  );
}

function Entries(): ReactNode {
  const entries = useInfiniteQuery(entriesQuery);
  return (
    <>
      <h2>Entries</h2>
      <ProblemNote of={entries.error} />
      {entries.data ? (
        <DataTable
          caption="Ledger entries, newest first"
          columns={ENTRIES}
          rows={entries.data.pages.flatMap(({ items }) => items)}
          rowKey={({ id }) => id}
        />
      ) : (
        <Loading />
      )}
      {entries.hasNextPage ? (
        <Button mt="md" variant="default" loading={entries.isFetchingNextPage} onClick={() => void entries.fetchNextPage()}>
          Show older entries
        </Button>
      ) : null}
    </>
  );
}
