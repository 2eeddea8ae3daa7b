// The owner's look at the books: every account with its balance on a day; each balance opens the entries behind it.
import type { ReactNode } from 'react';
import { Anchor, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ACCOUNT_KINDS, type TrialBalance } from '@backsight/contract/fees/ledger';
import { formatUsd } from '@backsight/domain/shared/money';
import { booksQuery, trialBalanceQuery } from '../../api/ledger.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';

const route = getRouteApi('/shell/ledger');
type Row = TrialBalance['rows'][number];

const columnsOf = (to: string): Column<Row>[] => {
  const side = ({ account, name }: Row, cents: number): ReactNode =>
    cents === 0 ? (
      ''
    ) : account === 'sum' ? (
      <Money cents={cents} />
    ) : (
      <TextLink to="/ledger/entries" search={{ account, to }} aria-label={`${name}: entries behind ${formatUsd(cents)}`}>
        <Money cents={cents} />
      </TextLink>
    );
  return [
    { key: 'name', head: 'Account', cell: ({ name }) => name },
    { key: 'kind', head: 'Kind', cell: ({ kind }) => ACCOUNT_KINDS[kind as keyof typeof ACCOUNT_KINDS] ?? '' },
    { key: 'debit', head: 'Debit', align: 'right', cell: (row) => side(row, row.debit) },
    { key: 'credit', head: 'Credit', align: 'right', cell: (row) => side(row, row.credit) },
  ];
};

export function LedgerPage(): ReactNode {
  const { until } = route.useSearch();
  const navigate = route.useNavigate();
  const { data, error, isPending } = useQuery(trialBalanceQuery(until));
  const books = useQuery(booksQuery);
  return (
    <Page
      title="Ledger"
      about="Trial balance: every account on the side where it stands. Both sides have the same sum."
      actions={
        <Group>
          <ButtonLink to="/ledger/entries" variant="default">
            Entries
          </ButtonLink>
          <ButtonLink to="/ledger/accounts" variant="default">
            Accounts and entry by hand
          </ButtonLink>
          <ButtonLink to="/ledger/books" variant="default">
            Close a month
          </ButtonLink>
        </Group>
      }
    >
      <Group align="end" mb="md">
        <TextInput
          type="date"
          label="Up to and including"
          maw="14rem"
          value={until ?? data?.until ?? ''}
          onChange={(event) => void navigate({ search: { until: event.currentTarget.value || undefined }, replace: true })}
        />
        <span>
          {books.data?.through ? (
            <>
              Closed through <Day day={books.data.through} />.
            </>
          ) : (
            'No month is closed.'
          )}
        </span>
        <span>
          Save the whole ledger as{' '}
          <Anchor href="/api/ledger/export.csv" download underline="always" inherit>
            a table (CSV)
          </Anchor>{' '}
          or{' '}
          <Anchor href="/api/ledger/export.journal" download underline="always" inherit>
            a plain-text journal
          </Anchor>
          .
        </span>
      </Group>
      <ProblemNote of={error ?? books.error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <DataTable
          caption="Trial balance"
          columns={columnsOf(data.until)}
          rows={[...data.rows, { account: 'sum', name: 'Together', kind: 'sum', debit: data.debit, credit: data.credit }]}
          rowKey={({ account }) => account}
        />
      ) : null}
    </Page>
  );
}
