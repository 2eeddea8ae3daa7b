// What a schedule would have brought over the jobs of a period, beside another, by kind and by line.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import { FEE_KINDS, type Revenue, type SchedulePage } from '@backsight/contract/fees/schedules';
import { overJobsQuery } from '../../api/feeSetUp.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';

type Row = { key: string; label: string; beforeCents: number; afterCents: number };

const columnsFor = (head: string, before: number, after: number): Column<Row>[] => [
  { key: 'label', head, cell: ({ label }) => label },
  { key: 'before', head: `By schedule ${before}`, align: 'right', cell: ({ beforeCents }) => <Money cents={beforeCents} /> },
  { key: 'after', head: `By schedule ${after}`, align: 'right', cell: ({ afterCents }) => <Money cents={afterCents} /> },
  {
    key: 'difference',
    head: 'Difference',
    align: 'right',
    cell: ({ beforeCents, afterCents }) => <Money cents={afterCents - beforeCents} />,
  },
];

export function OverJobs({ schedule: { id, number, beside } }: { schedule: SchedulePage }): ReactNode {
  const { zone } = useMe();
  const today = todayIn(zone);
  const [from, setFrom] = useState(() => DateTime.fromISO(today, { zone: 'utc' }).minus({ years: 1 }).toFormat('yyyy-MM-dd'));
  const [until, setUntil] = useState(today);
  const [asked, setAsked] = useState<{ from: string; until: string } | null>(null);
  const found = useQuery({ ...overJobsQuery({ id, beside: beside.id, ...(asked ?? { from, until }) }), enabled: asked !== null });
  return (
    <>
      <h3>Over the jobs of a period</h3>
      <Group align="flex-end" mb="sm">
        <TextInput label="From" type="date" value={from} onChange={(event) => setFrom(event.currentTarget.value)} />
        <TextInput label="Until" type="date" value={until} onChange={(event) => setUntil(event.currentTarget.value)} />
        <Button variant="default" onClick={() => setAsked({ from, until })}>
          Compare
        </Button>
      </Group>
      <ProblemNote of={found.error} />
      {found.isLoading ? <Loading /> : null}
      {found.data ? <Answer revenue={found.data} before={beside.number} after={number} /> : null}
    </>
  );
}

function Answer({ revenue, before, after }: { revenue: Revenue; before: number; after: number }): ReactNode {
  const kinds = Object.entries(FEE_KINDS).flatMap(([key, label]): Row[] => {
    const lines = revenue.lines.filter((line) => line.kind === key);
    const sum = (of: 'beforeCents' | 'afterCents') => lines.reduce((total, line) => total + line[of], 0);
    return lines.length === 0 ? [] : [{ key, label, beforeCents: sum('beforeCents'), afterCents: sum('afterCents') }];
  });
  const all = { key: 'all', label: 'All together', beforeCents: revenue.beforeCents, afterCents: revenue.afterCents };
  return (
    <>
      <p role="status">
        {revenue.jobs} {revenue.jobs === 1 ? 'job' : 'jobs'}: {revenue.higher} would have cost more, {revenue.lower} less. A planning
        estimate: driving is taken by distance, and nobody would have booked otherwise.
      </p>
      <DataTable
        caption="Fees by kind of rule"
        columns={columnsFor('Kind', before, after)}
        rows={[...kinds, all]}
        rowKey={({ key }) => key}
      />
      <details>
        <summary>By rule</summary>
        <DataTable caption="Fees by rule" columns={columnsFor('Rule', before, after)} rows={revenue.lines} rowKey={({ key }) => key} />
      </details>
    </>
  );
}
