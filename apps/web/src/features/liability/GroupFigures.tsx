// Groups of one kind held against the rest, with where each rate likely lies.
import type { ReactNode } from 'react';
import { GROUP_WORDS, pText, type Frequency, type GroupRow, type GroupTable } from '@backsight/contract/liability/frequency';
import { frequencyTable } from '../../api/frequency.ts';
import { IntervalBars, type IntervalRow } from '../../ui/charts/IntervalBars.tsx';
import type { Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { groupFinding } from './chartTitles.ts';
import type { SpanChosen } from './SpanForm.tsx';
import { TableFiles } from './TableFiles.tsx';

type Props = { data: Frequency; span: SpanChosen };

export function GroupFigures({ data, span }: Props): ReactNode {
  if (data.groups.length === 0)
    return (
      <Section title="By group">
        <Empty>{data.compared}</Empty>
      </Section>
    );
  return data.groups.map((table) => <OneKind key={table.by} table={table} span={span} hiddenPairs={data.hiddenPairs} />);
}

type Shown = IntervalRow & { row: GroupRow };
const number = (value: number | null, per = 1): string =>
  value === null ? 'none' : (value * per).toLocaleString('en-US', { maximumFractionDigits: value * per < 1 ? 2 : 1 });

const also = (table: GroupTable): Column<Shown>[] => {
  const { unit, count, per, others } = GROUP_WORDS[table.by];
  return [
    { key: 'count', head: count, align: 'right', cell: ({ row }) => row.count },
    { key: 'exposure', head: unit, align: 'right', cell: ({ row }) => row.exposure.toLocaleString('en-US') },
    { key: 'shrunk', head: 'Drawn to the common rate', align: 'right', cell: ({ row }) => number(row.shrunk, per) },
    { key: 'others', head: others, align: 'right', cell: ({ row }) => number(row.others, per) },
    { key: 'ratio', head: 'Ratio', align: 'right', cell: ({ row }) => number(row.ratio) },
    { key: 'p', head: 'p, adjusted p', cell: ({ row }) => (row.p === null ? 'none' : `${pText(row.p)}, ${pText(row.adjusted!)}`) },
    { key: 'cost', head: 'Incurred', align: 'right', cell: ({ row }) => <Money cents={row.incurredCents} /> },
    { key: 'words', head: 'In words', cell: ({ row }) => row.sentence },
  ];
};

/** Rows of steps that nothing was traced to are told by number only. */
function OneKind({ table, span, hiddenPairs }: { table: GroupTable; span: SpanChosen; hiddenPairs: readonly string[] }): ReactNode {
  const { title, one, unit, count, per } = GROUP_WORDS[table.by];
  const rows = table.by === 'step' ? table.rows.filter((row) => row.count > 0) : table.rows;
  const silent = table.rows.length - rows.length;
  const common = commonOf(table.rows);
  const word = count === 'failures' ? 'Failures' : 'Callbacks';
  return (
    <Section
      title={`By ${title.charAt(0).toLowerCase()}${title.slice(1)}`}
      actions={<TableFiles csv={frequencyTable(table.by, span)} of={title} />}
    >
      {rows.length === 0 ? (
        <Empty>{table.by === 'step' ? 'No callback was traced to a step.' : 'Cannot be estimated because there is nothing to show.'}</Empty>
      ) : (
        <IntervalBars<Shown>
          title={groupFinding(table)}
          summary={`${word} per ${per.toLocaleString('en-US')} ${unit}, by ${one.toLowerCase()}. ${table.shrinkage}`}
          rows={rows.map((row) => shownOf(row, per))}
          rowName={one}
          xName={`${word} per ${per.toLocaleString('en-US')} ${unit}`}
          ends="95 % interval"
          format={(value) => number(value)}
          {...(common === null
            ? {}
            : {
                usual: { value: common * per, label: 'all together' },
                most: Math.max(common, ...rows.map(({ rate }) => rate ?? 0)) * per * 2.5,
              })}
          also={also(table)}
        />
      )}
      {silent > 0 ? <p>{`${silent} more steps applied, and no callback was traced to them; they are in the table (CSV).`}</p> : null}
      {table.by === 'pair' ? <Hidden pairs={hiddenPairs} /> : null}
    </Section>
  );
}

const shownOf = (row: GroupRow, per: number): Shown => {
  const at = (value: number | null): number | null => (value === null ? null : value * per);
  const { value: key, name, signal } = row;
  return { row, key, name, value: at(row.rate), lower: at(row.lower), upper: at(row.upper), signal: signal !== null };
};

/** All counts over all exposures: of groups that overlap or share all jobs it is their average. */
function commonOf(rows: readonly GroupRow[]): number | null {
  const exposure = rows.reduce((sum, row) => sum + row.exposure, 0);
  return exposure > 0 ? rows.reduce((sum, row) => sum + row.count, 0) / exposure : null;
}

const Hidden = ({ pairs }: { pairs: readonly string[] }): ReactNode =>
  pairs.length === 0 ? null : (
    <details>
      <summary>{`${pairs.length} ${pairs.length === 1 ? 'pair has' : 'pairs have'} too few: less than five callbacks to be expected`}</summary>
      <p>{pairs.join('; ')}.</p>
    </details>
  );
