// Open callbacks by state and by days since they came in; each number opens them.
import type { ReactNode } from 'react';
import { STATES } from '@backsight/contract/callbacks';
import { OPEN_AGES, type OpenAge, type OwnerPage } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { TableFiles } from './TableFiles.tsx';

type Row = OwnerPage['open'][number];
const AGES = Object.keys(OPEN_AGES) as OpenAge[];
const opens = (n: number, search: { state?: string; age?: OpenAge }): ReactNode =>
  n === 0 ? (
    0
  ) : (
    <TextLink to="/liabilities/open-callbacks" search={search}>
      {n}
    </TextLink>
  );
const all = (row: Row): number => AGES.reduce((sum, age) => sum + row[age], 0);
const upper = (text: string): string => text[0]!.toUpperCase() + text.slice(1);

const COLUMNS: Column<Row>[] = [
  { key: 'state', head: 'State', cell: (row) => (row.state === '' ? 'all' : (STATES[row.state as keyof typeof STATES] ?? row.state)) },
  ...AGES.map((age): Column<Row> => ({
    key: age,
    head: upper(OPEN_AGES[age]),
    align: 'right',
    cell: (row) => opens(row[age], { age, ...(row.state === '' ? {} : { state: row.state }) }),
  })),
  { key: 'all', head: 'All', align: 'right', cell: (row) => opens(all(row), row.state === '' ? {} : { state: row.state }) },
];

export function OwnerOpen({ data: { open } }: { data: OwnerPage }): ReactNode {
  const sum = (age: OpenAge): number => open.reduce((total, row) => total + row[age], 0);
  const total: Row = { state: '', upTo7: sum('upTo7'), upTo30: sum('upTo30'), upTo90: sum('upTo90'), older: sum('older') };
  return (
    <Section title="Open callbacks" folds actions={<TableFiles csv={tableAddress(ownerTables.page, 'open')} of="open callbacks" />}>
      {open.length === 0 ? (
        <Empty>Nothing is open.</Empty>
      ) : (
        <DataTable
          caption="Open callbacks by state and days since they came in"
          columns={COLUMNS}
          rows={open.length > 1 ? [...open, total] : open}
          rowKey={(row) => row.state}
        />
      )}
    </Section>
  );
}
