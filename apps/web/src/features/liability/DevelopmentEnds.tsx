// What each period is likely to end with and by which method; and the factors that older periods grew by.
import type { ReactNode } from 'react';
import type { Development, DevelopmentFactor, DevelopmentOrigin, Grain } from '@backsight/contract/liability/development';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Section } from '../../ui/Section.tsx';
import { amount, METHODS, percent } from './developmentWords.ts';
import { TableFiles } from './TableFiles.tsx';

type Outlook = NonNullable<DevelopmentOrigin['outlook']>;
type Line = { name: string; jobs: number; latest: number } & Partial<Omit<Outlook, 'projected'>>;

/** `files`: where the table is read. */
export function DevelopmentEnds({ data, files }: { data: Development; files: string }): ReactNode {
  const { origins, of, by, estimate, asOf } = data;
  if (!estimate.ok) return null;
  const { totals, expectedPer100, factorErrors } = estimate;
  const together: Line = { ...totals, name: 'Together', jobs: origins.reduce((sum, { jobs }) => sum + jobs, 0) };
  return (
    <Section title={`What each ${by} is likely to end with`} folds actions={<TableFiles csv={files} of="ends and triangle" />}>
      <p>
        {expectedPer100 === null
          ? 'No expected amount per 100 jobs is used.'
          : `Expected of 100 jobs, for the ${by}s that are young: ${amount(of, expectedPer100)}.`}
      </p>
      {factorErrors ? <p>{`By chain ladder no standard error can be given: ${factorErrors.replace(/^C/, 'c')}`}</p> : null}
      <DataTable
        caption={`What each ${by} is likely to end with, as of ${asOf}`}
        columns={columnsOf(of)}
        rows={[...origins.map(({ outlook, ...origin }): Line => ({ ...origin, ...outlook })), together]}
        rowKey={({ name }) => name}
      />
    </Section>
  );
}

const columnsOf = (of: Development['of']): Column<Line>[] => {
  const say = (value: number | null | undefined): ReactNode => (value === undefined || value === null ? '' : amount(of, value));
  return [
    { key: 'name', head: 'Inspected in', oneLine: true, cell: ({ name }) => name },
    { key: 'jobs', head: 'Jobs', align: 'right', cell: ({ jobs }) => jobs.toLocaleString('en-US') },
    { key: 'latest', head: 'Known', align: 'right', cell: ({ latest }) => say(latest) },
    {
      key: 'share',
      head: 'Usually known',
      align: 'right',
      cell: ({ shareKnown }) => (shareKnown === undefined ? '' : percent(shareKnown)),
    },
    { key: 'toCome', head: 'Still to come', align: 'right', cell: ({ unreported }) => say(unreported) },
    { key: 'end', head: 'At the end', align: 'right', cell: ({ ultimate }) => say(ultimate) },
    {
      key: 'error',
      head: 'Standard error',
      align: 'right',
      cell: ({ standardError }) => say(standardError),
    },
    { key: 'method', head: 'Method, and why', cell: ({ method, why }) => (method ? `${METHODS[method]}: ${why}` : '') },
  ];
};

type FactorProps = {
  by: Grain;
  factors: readonly DevelopmentFactor[];
  /** Their standard errors can be told. */ told: boolean;
  files: string;
};

export function DevelopmentFactors({ by, factors, told, files }: FactorProps): ReactNode {
  if (factors.length === 0) return null;
  const four = (value: number): string => value.toFixed(4);
  return (
    <Section title="What older ones grew by" folds actions={<TableFiles csv={files} of="factors" />}>
      <p>{`Sum after over sum before, of every ${by} that shows the step (volume weighted chain ladder).`}</p>
      <DataTable
        caption="Factors by age"
        columns={[
          { key: 'step', head: 'From age to age', cell: ({ from, to }) => `${from} to ${to}` },
          { key: 'factor', head: 'Factor', align: 'right', cell: ({ factor }) => four(factor) },
          ...(told
            ? [
                {
                  key: 'error',
                  head: 'Standard error',
                  align: 'right',
                  cell: ({ standardError }: DevelopmentFactor) => four(standardError ?? 0),
                } as const,
              ]
            : []),
          { key: 'rows', head: 'Seen in', align: 'right', cell: ({ rows }) => `${rows} ${by}${rows === 1 ? '' : 's'}` },
          { key: 'share', head: 'Usually known before it', align: 'right', cell: ({ shareKnown }) => percent(shareKnown) },
        ]}
        rows={factors}
        rowKey={({ from }) => String(from)}
      />
    </Section>
  );
}
