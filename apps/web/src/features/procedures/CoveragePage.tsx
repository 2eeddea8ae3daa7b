// Each duty of the published rule with the steps in force that carry it out.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { coverageQuery } from '../../api/procedures.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';

type Row = { id: string; citation: string; section: string; requirement: string; status: string; steps: { key: string; title: string }[] };

const COLUMNS: Column<Row>[] = [
  { key: 'citation', head: 'Paragraph', cell: ({ citation, section }) => `${citation} ${section}` },
  {
    key: 'requirement',
    head: 'Duty, in our summary',
    cell: ({ requirement, status }) =>
      status === 'found' ? requirement : `${requirement} (from memory: read the rule before relying on it)`,
  },
  {
    key: 'steps',
    head: 'Steps in force',
    cell: ({ steps }) => (steps.length === 0 ? <strong>No step does this</strong> : steps.map(({ title }) => title).join('; ')),
  },
];

export function CoveragePage(): ReactNode {
  const { data, error, isPending } = useQuery(coverageQuery);
  const open = data?.uncovered ?? 0;
  return (
    <Page
      title="Coverage"
      about={
        data
          ? `${data.standard}: ${open === 0 ? 'every duty is carried out by a step in force.' : `${open} ${open === 1 ? 'duty has' : 'duties have'} no step.`}`
          : undefined
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <DataTable caption="Duties and the steps that carry them out" columns={COLUMNS} rows={data.rows} rowKey={({ id }) => id} />
      ) : null}
    </Page>
  );
}
