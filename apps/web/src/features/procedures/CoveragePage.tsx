// Each duty of a published standard with the steps in force that carry it out; the firm's own state first, others to compare with.
import type { ReactNode } from 'react';
import { NativeSelect, Switch } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import type { Coverage } from '@backsight/contract/procedures';
import { coveragePaper, coverageQuery } from '../../api/procedures.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { TracedTo } from '../../ui/TracedTo.tsx';
import classes from './procedures.module.css';

const route = getRouteApi('/shell/procedures/coverage');
type Row = Coverage['rows'][number];

const COLUMNS: Column<Row>[] = [
  {
    key: 'citation',
    head: 'Paragraph',
    cell: ({ id, citation, section }) => `${citation} ${section} (${id})`,
  },
  {
    key: 'requirement',
    head: 'Duty, in our summary',
    cell: ({ requirement, status }) =>
      status === 'found' ? requirement : `${requirement} (from memory: read the rule before relying on it)`,
  },
  {
    key: 'steps',
    head: 'Carried out by',
    cell: ({ steps, elsewhere, covered }) =>
      covered ? (
        <>
          {steps.map(({ key, title }) => (
            <div key={key}>
              {title} <TracedTo stepKey={key} />
            </div>
          ))}
          {elsewhere}
        </>
      ) : (
        <strong>No step does this</strong>
      ),
  },
];

const gaps = (open: number): string =>
  open === 0 ? 'every duty on file is carried out.' : `${open} ${open === 1 ? 'duty has' : 'duties have'} no step.`;

export function CoveragePage(): ReactNode {
  const { state, gapsOnly = false } = route.useSearch();
  const { data, error, isPending } = useQuery(coverageQuery(state));
  return (
    <Page
      title="Coverage"
      about={data ? `${data.standard}: ${gaps(data.uncovered)}` : undefined}
      actions={data ? <a href={coveragePaper(data.jurisdiction)}>Print (PDF)</a> : undefined}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Table of={data} gapsOnly={gapsOnly} /> : null}
    </Page>
  );
}

function Table({ of, gapsOnly }: { of: Coverage; gapsOnly: boolean }): ReactNode {
  const navigate = useNavigate();
  const rows = gapsOnly ? of.rows.filter(({ covered }) => !covered) : of.rows;
  return (
    <>
      <div className={classes.row}>
        <NativeSelect
          label="Standard of"
          data={of.standards.map(({ jurisdiction, state, duties, uncovered }) => ({
            value: jurisdiction,
            label: `${state}: ${duties - uncovered} of ${duties} carried out`,
          }))}
          value={of.jurisdiction}
          onChange={(event) =>
            void navigate({ to: '/procedures/coverage', search: { state: event.currentTarget.value, gapsOnly }, replace: true })
          }
        />
        <Switch
          label="Only duties without a step"
          checked={gapsOnly}
          onChange={(event) =>
            void navigate({
              to: '/procedures/coverage',
              search: { state: of.jurisdiction, gapsOnly: event.currentTarget.checked },
              replace: true,
            })
          }
        />
      </div>
      <p className={classes.soft}>
        {of.own ? 'This is the standard of the firm. ' : 'Not the standard of the firm: shown to compare with. '}
        Rows were collected from the published text and are no proof that the rule asks for nothing else. Read at {of.source}
      </p>
      {rows.length === 0 ? (
        <Empty>There is none.</Empty>
      ) : (
        <DataTable caption="Duties and the steps that carry them out" columns={COLUMNS} rows={rows} rowKey={({ id }) => id} />
      )}
    </>
  );
}
