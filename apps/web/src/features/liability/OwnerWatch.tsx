// What an owner watches besides the money: overrides, starts without every signature, holds, policies.
import type { ReactNode } from 'react';
import type { OwnerPage } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import { counted } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';

type Beside = OwnerPage['overrides'];
type Row = { what: string; to: '/liabilities/overrides' | '/liabilities/unsigned-starts'; of: Beside };
const opens = (row: Row, n: number, days: { from: string; to: string }): ReactNode =>
  n === 0 ? (
    0
  ) : (
    <TextLink to={row.to} search={days}>
      {n}
    </TextLink>
  );
const COLUMNS: Column<Row>[] = [
  { key: 'what', head: 'Let through', cell: (row) => row.what },
  { key: 'month', head: 'This month', align: 'right', cell: (row) => opens(row, row.of.month.now, row.of.month.days) },
  {
    key: 'monthBefore',
    head: 'Same days a year ago',
    align: 'right',
    cell: (row) => opens(row, row.of.month.before, row.of.month.beforeDays),
  },
  { key: 'year', head: 'This year', align: 'right', cell: (row) => opens(row, row.of.year.now, row.of.year.days) },
  {
    key: 'yearBefore',
    head: 'To this day last year',
    align: 'right',
    cell: (row) => opens(row, row.of.year.before, row.of.year.beforeDays),
  },
];

export function OwnerWatch({ data }: { data: OwnerPage }): ReactNode {
  const { held } = data;
  const rows: Row[] = [
    { what: 'Overrides used (starts and reports)', to: '/liabilities/overrides', of: data.overrides },
    { what: 'Agreement unsigned at the start', to: '/liabilities/unsigned-starts', of: data.unsignedStarts },
  ];
  return (
    <Section
      title="To keep in sight"
      folds
      actions={<TableFiles csv={tableAddress(ownerTables.page, 'watched')} of="what was let through" />}
    >
      <DataTable caption="What was let through though something was missing" columns={COLUMNS} rows={rows} rowKey={(row) => row.what} />
      <div style={{ marginTop: 'var(--bs-space-6)' }}>
        <Details
          rows={[
            ['Policies that end soon', <Policies policies={data.policies} />],
            [
              'Jobs held as evidence',
              held.jobs === 0 ? (
                'none'
              ) : (
                <TextLink to="/liabilities/held-jobs">{`${counted(held.jobs, 'job')}, ${held.byHand} by hand`}</TextLink>
              ),
            ],
          ]}
        />
      </div>
    </Section>
  );
}

const left = (days: number): string =>
  days < 0 ? `ended ${counted(-days, 'day')} ago` : days === 0 ? 'ends today' : `${counted(days, 'day')} left`;

function Policies({ policies }: { policies: OwnerPage['policies'] }): ReactNode {
  if (policies.length === 0) return 'none ends within 90 days without one that follows';
  return policies.map((p) => (
    <div key={p.id}>
      <TextLink to="/firm">{`${p.kind === 'professional' ? 'Professional' : 'General'} liability, ${p.insurer}, ${p.number}`}</TextLink>
      {': '}
      <strong>{left(p.daysLeft)}</strong>
      {', '}
      <Day day={p.endsOn} />
      {p.basis === 'claims_made' && p.daysLeft >= 0 ? '. Report claims and circumstances before it ends.' : ''}
    </div>
  ));
}
