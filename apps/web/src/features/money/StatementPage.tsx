// What one party owed, what changed it, and what it owes: a period of its own.
import type { ReactNode } from 'react';
import { Anchor, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { Statement } from '@backsight/contract/fees/terms';
import { statementQuery } from '../../api/fees.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';

const route = getRouteApi('/shell/statements/$partyId');
type Row = Pick<Statement['rows'][number], 'entryId' | 'happenedOn' | 'memo' | 'invoiceId' | 'owedCents'> & { cents: number | null };

const COLUMNS: Column<Row>[] = [
  {
    key: 'memo',
    head: 'What',
    cell: ({ memo, invoiceId }) =>
      invoiceId ? (
        <TextLink to="/invoices/$invoiceId" params={{ invoiceId }}>
          {memo}
        </TextLink>
      ) : (
        memo
      ),
  },
  { key: 'on', head: 'Day', oneLine: true, cell: ({ happenedOn }) => <Day day={happenedOn} /> },
  { key: 'cents', head: 'Amount', align: 'right', cell: ({ cents }) => (cents === null ? '' : <Money cents={cents} />) },
  { key: 'owed', head: 'Owed', align: 'right', cell: ({ owedCents }) => <Money cents={owedCents} /> },
];

const rowsOf = (s: Statement): Row[] => [
  { entryId: 'before', happenedOn: s.from, memo: 'Owed before', invoiceId: null, cents: null, owedCents: s.openingCents },
  ...s.rows,
  { entryId: 'after', happenedOn: s.to, memo: 'Owed at the end', invoiceId: null, cents: null, owedCents: s.closingCents },
];

export function StatementPage(): ReactNode {
  const { partyId } = route.useParams();
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const { data, error, isPending } = useQuery(statementQuery(partyId, search));
  const set = (part: 'from' | 'to', typed: string) =>
    void navigate({ search: (before) => ({ ...before, [part]: typed || undefined }), replace: true });
  const query = data ? `from=${data.from}&to=${data.to}` : '';
  return (
    <Page title={data ? `Statement of ${data.name}` : 'Statement'} about="An amount below zero is in favor of the party.">
      <Group align="end" mb="md">
        {(['from', 'to'] as const).map((part) => (
          <TextInput
            key={part}
            type="date"
            label={part === 'from' ? 'From' : 'To'}
            value={search[part] ?? data?.[part] ?? ''}
            onChange={(event) => set(part, event.currentTarget.value)}
          />
        ))}
        <Anchor href={`/api/parties/${partyId}/statement/paper?${query}`} target="_blank" underline="always">
          Open it to print
        </Anchor>
        <Anchor href={`/api/parties/${partyId}/statement.csv?${query}`} download underline="always">
          Save as a table (CSV)
        </Anchor>
      </Group>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <DataTable caption={`Statement of ${data.name}`} columns={COLUMNS} rows={rowsOf(data)} rowKey={({ entryId }) => entryId} />
      ) : null}
    </Page>
  );
}
