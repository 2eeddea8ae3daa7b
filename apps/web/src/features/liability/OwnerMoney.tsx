// Paid, set aside, recovered: this month and this year beside the same days a year earlier, and since the start.
import type { ReactNode } from 'react';
import type { OwnerPage } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { TableFiles } from './TableFiles.tsx';

type Row = {
  when: string;
  days: { from?: string; to?: string };
  paidCents: number;
  reservedCents: number;
  recoveredCents: number;
  incurredCents: number;
};
const sum = (head: string, of: (row: Row) => number): Column<Row> => ({
  key: head,
  head,
  align: 'right',
  cell: (row) => (
    <TextLink to="/liabilities/entries" search={row.days}>
      <Money cents={of(row)} />
    </TextLink>
  ),
});
const COLUMNS: Column<Row>[] = [
  { key: 'when', head: 'In the books', cell: (row) => row.when },
  sum('Paid', (row) => row.paidCents),
  sum('Set aside, less released', (row) => row.reservedCents),
  sum('Recovered', (row) => row.recoveredCents),
  sum('Incurred', (row) => row.incurredCents),
];

export function OwnerMoney({ data: { money } }: { data: OwnerPage }): ReactNode {
  const rows: Row[] = [
    { when: 'This month', days: money.month.days, ...money.month.now },
    { when: 'Same days a year ago', days: money.month.beforeDays, ...money.month.before },
    { when: 'This year', days: money.year.days, ...money.year.now },
    { when: 'To this day last year', days: money.year.beforeDays, ...money.year.before },
    { when: 'Since the start', days: {}, ...money.ever },
  ];
  return (
    <Section title="Money of callbacks" actions={<TableFiles csv={tableAddress(ownerTables.page, 'money')} of="money of callbacks" />}>
      <DataTable caption="Money of callbacks by when it stands in the books" columns={COLUMNS} rows={rows} rowKey={(row) => row.when} />
      <p>
        <small>Incurred is paid and set aside, less recovered. Each number opens the entries behind it.</small>
      </p>
    </Section>
  );
}
