// How often callbacks come: by month with the control chart that fits, cost per job, and groups held against the rest.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import {
  COMPARED,
  GROUP_WORDS,
  monthName,
  type Frequency,
  type MonthChart,
  type MonthFigures,
} from '@backsight/contract/liability/frequency';
import { frequencyQuery, frequencyTable, type FrequencySearch } from '../../api/frequency.ts';
import { ControlChart } from '../../ui/charts/ControlChart.tsx';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { GroupFigures } from './GroupFigures.tsx';
import { SpanForm } from './SpanForm.tsx';
import { TableFiles } from './TableFiles.tsx';

const address = getRouteApi('/shell/liabilities/frequency');

export function FrequencyPage(): ReactNode {
  const search = address.useSearch();
  const navigate = address.useNavigate();
  const { data, error, isPending } = useQuery(frequencyQuery(search));
  const change = (more: FrequencySearch): void =>
    void navigate({ search: (now) => ({ ...now, ...more }), replace: true, resetScroll: false });
  return (
    <Page
      title="How often callbacks come"
      about="Counted by the month in which the house was inspected. Questions, near-misses and duplicates do not count."
      actions={
        <>
          <TextLink to="/liabilities/people">Pairs and people</TextLink> <TextLink to="/liabilities/steps">Steps</TextLink>{' '}
          <TextLink to="/liabilities">Liabilities</TextLink>
        </>
      }
    >
      <SpanForm asked={search} shown={data} onChange={change}>
        <NativeSelect
          label="Groups"
          value={search.by ?? ''}
          data={[{ value: '', label: 'All' }, ...COMPARED.map((by) => ({ value: by, label: GROUP_WORDS[by].title }))]}
          onChange={(event) => change({ by: (event.currentTarget.value || undefined) as FrequencySearch['by'] })}
        />
      </SpanForm>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && !error ? <Content data={data} search={search} /> : null}
    </Page>
  );
}

function Content({ data, search }: { data: Frequency; search: FrequencySearch }): ReactNode {
  const span = { from: search.from, until: search.until };
  const inspected = data.months.some(({ jobs }) => jobs > 0);
  return (
    <>
      <Section title="By month of inspection">
        {data.young ? <p>{data.young}</p> : null}
        {data.chart.ok ? <MonthsChart chart={data.chart} /> : null}
        {!data.chart.ok && inspected ? <PlainRates months={data.months} why={data.chart.sentence} /> : null}
        {!data.chart.ok && !inspected ? <Empty>{data.chart.sentence}</Empty> : null}
      </Section>
      {inspected ? (
        <>
          <Section title="Cost per job">
            <CostChart months={data.months} />
          </Section>
          <Section
            title="Each month beside the same month a year earlier"
            actions={<TableFiles csv={frequencyTable({ ...span, by: 'month' })} of="months" />}
          >
            <MonthTables months={[...data.months].reverse()} />
          </Section>
        </>
      ) : null}
      <GroupFigures data={data} span={span} />
    </>
  );
}

/** The first point that is still coming in has a mark before it. */
const youngMark = (points: readonly { young: boolean }[]): { at: number; label: string }[] => {
  const at = points.findIndex(({ young }) => young);
  return at < 0 ? [] : [{ at, label: 'still coming in' }];
};
const one = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 1 });

function MonthsChart({ chart }: { chart: MonthChart }): ReactNode {
  const told = chart.points.filter(({ signals }) => signals.length > 0).length;
  const center = one(chart.points[0]?.center ?? 0);
  const middle =
    chart.kind === 'u'
      ? `In the middle ${center} callbacks per 100 jobs.`
      : `In the middle ${center} jobs lie between one callback and the next (the median that goes with the mean).`;
  const signals = told === 0 ? 'No point calls for a look.' : `${told} ${told === 1 ? 'point calls' : 'points call'} for a look.`;
  return (
    <ControlChart
      title={chart.kind === 'u' ? 'Callbacks per 100 jobs, by month of inspection' : 'Jobs from one callback to the next'}
      summary={`${chart.sentence} ${middle} ${signals}`}
      points={chart.points}
      xName={chart.kind === 'u' ? 'Month of inspection' : 'Day of the inspection that the later callback is about'}
      yName={chart.kind === 'u' ? 'Callbacks per 100 jobs' : 'Jobs between'}
      format={one}
      goodSide={chart.goodSide}
      marks={youngMark(chart.points)}
      markWords="from here on still coming in"
    />
  );
}

/** Where no limits can be taken the rates alone are drawn, with the reason. */
function PlainRates({ months, why }: { months: readonly MonthFigures[]; why: string }): ReactNode {
  const points = months.map(({ month, jobs, callbacks, state }) => ({
    label: monthName(month),
    value: jobs > 0 ? (callbacks / jobs) * 100 : null,
    young: state !== 'settled',
  }));
  return (
    <ControlChart
      title="Callbacks per 100 jobs, by month of inspection"
      summary={`Drawn without limits. ${why}`}
      points={points}
      xName="Month of inspection"
      yName="Callbacks per 100 jobs"
      format={one}
      marks={youngMark(points)}
      markWords="from here on still coming in"
    />
  );
}

const dollars = (value: number): string => `$${value.toLocaleString('en-US', { maximumFractionDigits: 0 })}`;

function CostChart({ months }: { months: readonly MonthFigures[] }): ReactNode {
  const points = months.map(({ month, jobs, incurredCents, state }) => ({
    label: monthName(month),
    value: jobs > 0 ? incurredCents / 100 / jobs : null,
    young: state !== 'settled',
  }));
  const [jobs, cents] = months.reduce(([j, c], month) => [j + month.jobs, c + month.incurredCents], [0, 0]);
  return (
    <ControlChart
      title="Cost of callbacks per job, by month of inspection"
      summary={`${dollars(jobs > 0 ? cents / 100 / jobs : 0)} per job over all months: paid and set aside, less recovered. Single cases move it, so no limits are drawn.`}
      points={points}
      xName="Month of inspection"
      yName="Dollars per job"
      format={dollars}
      marks={youngMark(points)}
      markWords="from here on still coming in"
    />
  );
}

const per100 = (count: number, jobs: number): string => (jobs > 0 ? `${one((count / jobs) * 100)} per 100` : 'no job');
const found = (month: string, count: number): ReactNode =>
  count === 0 ? (
    '0'
  ) : (
    <TextLink to="/callbacks" search={{ which: 'all', inspected: month }}>
      {count}
    </TextLink>
  );

const STATES = { running: 'not over yet', young: 'still coming in', settled: 'all but there' };
const stateText = ({ state, share }: MonthFigures): string =>
  state === 'settled'
    ? ''
    : `${STATES[state]}${share === null || state === 'running' ? '' : `, ${Math.round(share * 100)} % usually known`}`;

const MONTHS: Column<MonthFigures>[] = [
  { key: 'month', head: 'Inspected in', oneLine: true, cell: ({ month }) => monthName(month) },
  { key: 'jobs', head: 'Jobs', align: 'right', cell: ({ jobs }) => jobs },
  { key: 'callbacks', head: 'Callbacks', align: 'right', cell: ({ month, callbacks }) => found(month, callbacks) },
  { key: 'rate', head: 'Rate', align: 'right', oneLine: true, cell: ({ callbacks, jobs }) => per100(callbacks, jobs) },
  {
    key: 'cost',
    head: 'Cost per job',
    align: 'right',
    cell: ({ jobs, incurredCents }) => (jobs > 0 ? <Money cents={Math.round(incurredCents / jobs)} /> : 'no job'),
  },
  { key: 'state', head: 'Still coming in?', cell: stateText },
  {
    key: 'earlier',
    head: 'A year earlier',
    cell: ({ earlier }) =>
      earlier ? `${per100(earlier.callbacks, earlier.jobs)} (${earlier.callbacks} of ${earlier.jobs} jobs)` : 'nothing inspected',
  },
  {
    key: 'same',
    oneLine: true,
    head: 'At this age',
    align: 'right',
    cell: ({ earlier }) => (earlier === null ? '' : `${earlier.callbacksAtSameAge} known`),
  },
];

const FIRST = 13;

/** The last year and its month before stand open; the older ones are one click away. */
function MonthTables({ months }: { months: readonly MonthFigures[] }): ReactNode {
  const older = months.slice(FIRST);
  return (
    <>
      <DataTable caption="Callbacks by month of inspection" columns={MONTHS} rows={months.slice(0, FIRST)} rowKey={({ month }) => month} />
      {older.length > 0 ? (
        <details style={{ marginTop: '0.6rem' }}>
          <summary>{`${older.length} earlier ${older.length === 1 ? 'month' : 'months'}`}</summary>
          <DataTable caption="Callbacks by earlier month of inspection" columns={MONTHS} rows={older} rowKey={({ month }) => month} />
        </details>
      ) : null}
    </>
  );
}
