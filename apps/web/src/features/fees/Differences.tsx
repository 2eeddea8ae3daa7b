// What a schedule changes against another, rule by rule, in plain words.
import type { ReactNode } from 'react';
import type { SchedulePage } from '@backsight/contract/fees/schedules';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';

type Difference = SchedulePage['differences'][number];
const WHAT = { added: 'added', removed: 'removed', changed: 'changed', moved: 'stands elsewhere' };

export function Differences({ schedule: { differences, beside, number } }: { schedule: SchedulePage }): ReactNode {
  if (differences.length === 0) return <Empty>As saved, both say the same.</Empty>;
  const columns: Column<Difference>[] = [
    { key: 'rule', head: 'Rule', cell: ({ label }) => label },
    { key: 'what', head: 'Difference', oneLine: true, cell: ({ what }) => WHAT[what] },
    { key: 'before', head: `Schedule ${beside.number}`, cell: ({ before }) => before ?? 'no such rule' },
    { key: 'after', head: `Schedule ${number}`, cell: ({ after }) => after ?? 'no such rule' },
  ];
  return <DataTable caption="Differences between the schedules" columns={columns} rows={differences} rowKey={({ key }) => key} />;
}
