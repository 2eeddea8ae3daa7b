// Plans that were asked for lately.
import type { ReactNode } from 'react';
import type { PlanHead } from '@backsight/contract/plans';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { dayText } from '../../ui/time.ts';
import { When } from '../../ui/When.tsx';

const STATE: Record<PlanHead['state'], string> = {
  asked: 'being made',
  finished: 'ready',
  stopped: 'stopped',
  failed: 'broken off',
  lost: 'lost at a restart',
};

const columns: Column<PlanHead>[] = [
  {
    key: 'days',
    head: 'Days',
    cell: ({ id, kind, fromDay, toDay }) => (
      <TextLink to={kind === 'what_if' ? '/what-if/$planId' : '/day-plan/$planId'} params={{ planId: id }}>
        {fromDay === toDay ? dayText(fromDay) : `${dayText(fromDay)} to ${dayText(toDay)}`}
      </TextLink>
    ),
  },
  { key: 'state', head: 'State', cell: ({ state, accepted }) => (accepted.length > 0 ? `${accepted.length} accepted` : STATE[state]) },
  { key: 'by', head: 'Asked by', cell: ({ askedBy }) => askedBy },
  { key: 'at', head: 'When', cell: ({ askedAt }) => <When at={askedAt} /> },
];

export const PlanList = ({ plans }: { plans: readonly PlanHead[] }): ReactNode => (
  <DataTable caption="Plans made lately" columns={columns} rows={plans} rowKey={({ id }) => id} />
);
