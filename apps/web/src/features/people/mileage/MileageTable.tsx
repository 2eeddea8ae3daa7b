// Planned and driven miles by day; each line can be entered or corrected.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MileageDay } from '@backsight/contract/people/own';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Money } from '../../../ui/Money.tsx';
import { Day } from '../../../ui/When.tsx';

const miles = (tenths: number): string => (tenths / 10).toFixed(1);
const signed = (tenths: number): string => `${tenths > 0 ? '+' : tenths < 0 ? '\u2212' : ''}${miles(Math.abs(tenths))}`;

type Props = { rows: MileageDay[]; choose: (row: MileageDay) => void };

export function MileageTable({ rows, choose }: Props): ReactNode {
  const columns: Column<MileageDay>[] = [
    { key: 'day', head: 'Day', cell: ({ day }) => <Day day={day} /> },
    { key: 'planned', head: 'Planned, miles', align: 'right', cell: ({ plannedTenths }) => miles(plannedTenths) },
    { key: 'driven', head: 'Driven, miles', align: 'right', cell: ({ entered }) => (entered ? miles(entered.tenths) : 'not entered') },
    {
      key: 'difference',
      head: 'Difference',
      align: 'right',
      cell: ({ differenceTenths }) => (differenceTenths === null ? '' : signed(differenceTenths)),
    },
    { key: 'vehicle', head: 'Vehicle', cell: ({ entered }) => (entered ? (entered.vehicle ?? 'own') : '') },
    { key: 'amount', head: 'Amount', align: 'right', cell: ({ entered, cents }) => (entered ? <Money cents={cents} /> : '') },
    {
      key: 'act',
      head: 'Change',
      cell: (row) => (
        <Button
          size="compact-sm"
          variant="default"
          aria-label={`${row.entered ? 'Correct' : 'Enter'} ${row.name} ${row.day}`}
          onClick={() => choose(row)}
        >
          {row.entered ? 'Correct' : 'Enter'}
        </Button>
      ),
    },
  ];
  return <DataTable caption="Miles by day" columns={columns} rows={rows} rowKey={({ personId, day }) => day + personId} />;
}
