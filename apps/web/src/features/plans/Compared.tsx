// The visits of a group before and after, side by side, and in words what differs.
import type { ReactNode } from 'react';
import type { PlanGroup } from '@backsight/contract/plans';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { differenceOf } from './changes.ts';
import classes from './plans.module.css';

type Move = PlanGroup['moves'][number];
type Props = { moves: readonly Move[]; names: Readonly<Record<string, string>> };

export function Compared({ moves, names }: Props): ReactNode {
  const name = (id: string): string => names[id] ?? 'somebody';
  const columns: Column<Move>[] = [
    {
      key: 'visit',
      head: 'Visit',
      cell: ({ jobId, label }) => (
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          {label}
        </TextLink>
      ),
    },
    { key: 'before', head: 'Before', cell: (move) => differenceOf(move, name).before ?? 'without a place' },
    {
      key: 'after',
      head: 'After',
      cell: (move) => differenceOf(move, name).after ?? 'without a place',
    },
    {
      key: 'changes',
      head: 'What changes',
      cell: (move) => <strong>{differenceOf(move, name).changes.join('; ')}</strong>,
    },
  ];
  return (
    <div className={classes.compared}>
      <DataTable caption="Before and after" columns={columns} rows={moves} rowKey={({ visitId }) => visitId} />
    </div>
  );
}
