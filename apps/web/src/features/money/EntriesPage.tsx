// Ledger entries, newest first, by account, kind, days, job or words.
import { Fragment, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ENTRY_KINDS, type LedgerEntryShown } from '@backsight/contract/fees/ledger';
import { formatUsd } from '@backsight/domain/shared/money';
import { accountsQuery, entriesQuery, type Filter } from '../../api/ledger.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';
import classes from './entries.module.css';

const route = getRouteApi('/shell/ledger/entries');

const sides = (lines: LedgerEntryShown['lines'], sign: 1 | -1): ReactNode =>
  lines
    .filter(({ cents }) => cents * sign > 0)
    .map(({ account, name, cents }, at) => (
      <div key={`${account}-${at}`} className={classes.side}>
        <span>{name}</span> <span className="numbers">{formatUsd(cents * sign)}</span>
      </div>
    ));

function Behind({ invoiceId, lines }: LedgerEntryShown): ReactNode {
  const job = lines.find(({ jobId }) => jobId !== null);
  const callback = lines.find(({ callbackId }) => callbackId !== null);
  const links = [
    invoiceId ? (
      <TextLink key="invoice" to="/invoices/$invoiceId" params={{ invoiceId }}>
        invoice
      </TextLink>
    ) : null,
    job?.jobId ? <TextLink key="job" to="/jobs/$jobId" params={{ jobId: job.jobId }}>{`job ${job.jobNumber}`}</TextLink> : null,
    callback?.callbackId ? (
      <TextLink key="callback" to="/callbacks/$callbackId" params={{ callbackId: callback.callbackId }}>
        callback
      </TextLink>
    ) : null,
  ].filter((link) => link !== null);
  return links.map((link, at) => (
    <Fragment key={link.key}>
      {at > 0 ? ', ' : ''}
      {link}
    </Fragment>
  ));
}

const COLUMNS: Column<LedgerEntryShown>[] = [
  {
    key: 'memo',
    head: 'What',
    cell: ({ memo, realOn }) => (
      <>
        {memo}
        {realOn ? (
          <div>
            really of <Day day={realOn} />, whose books were closed
          </div>
        ) : null}
      </>
    ),
  },
  { key: 'on', head: 'Day', oneLine: true, cell: ({ happenedOn }) => <Day day={happenedOn} /> },
  { key: 'debit', head: 'Debit', cell: ({ lines }) => sides(lines, 1) },
  { key: 'credit', head: 'Credit', cell: ({ lines }) => sides(lines, -1) },
  { key: 'behind', head: 'Behind it', cell: (entry) => <Behind {...entry} /> },
  { key: 'by', head: 'By', cell: ({ by }) => by ?? 'the service' },
];

export function EntriesPage(): ReactNode {
  const search = route.useSearch();
  const entries = useInfiniteQuery(entriesQuery(search as Filter));
  const rows = entries.data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Page title="Ledger entries" about="Newest first. An entry is never changed; a correction is another one that takes it back.">
      <Filters />
      <ProblemNote of={entries.error} />
      {entries.isPending ? <Loading /> : null}
      {entries.data && rows.length === 0 ? <Empty>No entry fits.</Empty> : null}
      {rows.length > 0 ? <DataTable caption="Ledger entries, newest first" columns={COLUMNS} rows={rows} rowKey={({ id }) => id} /> : null}
      {entries.hasNextPage ? (
        <Button mt="md" variant="default" loading={entries.isFetchingNextPage} onClick={() => void entries.fetchNextPage()}>
          Show older entries
        </Button>
      ) : null}
    </Page>
  );
}

function Filters(): ReactNode {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const accounts = useQuery(accountsQuery).data ?? [];
  const set = (name: keyof typeof search, typed: string) =>
    void navigate({
      search: (before) => ({ ...before, [name]: typed === '' ? undefined : name === 'job' ? Number(typed) || undefined : typed }),
      replace: true,
    });
  const of = (name: keyof typeof search) => ({
    value: String(search[name] ?? ''),
    onChange: (event: { currentTarget: { value: string } }) => set(name, event.currentTarget.value),
  });
  return (
    <Group align="end" mb="md">
      <NativeSelect
        label="Account"
        {...of('account')}
        data={[{ value: '', label: 'every account' }, ...accounts.map(({ code, name }) => ({ value: code, label: name }))]}
      />
      <NativeSelect
        label="Kind"
        {...of('kind')}
        data={[{ value: '', label: 'every kind' }, ...ENTRY_KINDS.map((kind) => ({ value: kind, label: kind.replaceAll('_', ' ') }))]}
      />
      <TextInput label="From" type="date" {...of('from')} />
      <TextInput label="To" type="date" {...of('to')} />
      <TextInput label="Job" inputMode="numeric" w="7rem" {...of('job')} />
      <TextInput label="Words" w="10rem" maxLength={80} {...of('words')} />
    </Group>
  );
}
