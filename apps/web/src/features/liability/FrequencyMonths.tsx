// Callbacks by month of inspection: the chart, the same month a year earlier beside it, and what one can unfold.
import type { ReactNode } from 'react';
import { monthName, type Frequency, type MonthChart, type MonthFigures } from '@backsight/contract/liability/frequency';
import { frequencyTable } from '../../api/frequency.ts';
import { ControlChart } from '../../ui/charts/ControlChart.tsx';
import { findingOf, gapFindingOf } from '../../ui/charts/findings.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import classes from './Frequency.module.css';
import { counted } from './monthWords.ts';
import type { SpanChosen } from './SpanForm.tsx';
import { TableFiles } from './TableFiles.tsx';

type Props = { data: Frequency; span: SpanChosen };

export function FrequencyMonths({ data, span }: Props): ReactNode {
  const { chart, months, young } = data;
  if (months.every(({ jobs }) => jobs === 0))
    return (
      <Section title="By month of inspection">
        <Empty>{chart.ok ? data.compared : chart.sentence}</Empty>
      </Section>
    );
  const newest = [...months].reverse();
  return (
    <>
      <Section title="By month of inspection" actions={<TableFiles csv={frequencyTable('month', span)} of="months" />}>
        <div className={classes.beside}>
          {chart.ok ? <MonthsChart chart={chart} /> : <PlainRates months={months} why={chart.sentence} />}
          <YearEarlier months={newest.slice(0, SHOWN)} />
        </div>
        {young ? <p>{young}</p> : null}
        {chart.ok ? (
          <p>
            The points of the chart: <TableFiles csv={frequencyTable('chart', span)} of="points of the chart" />
          </p>
        ) : null}
      </Section>
      <Section title="Cost per job" brief={`${dollars(costPerJob(months))} over all months`} folds="always">
        <CostChart months={months} />
      </Section>
      <Section title="Every month, with its cost" brief={`${months.length} months`} folds="always">
        <DataTable caption="Callbacks by month of inspection" columns={MONTHS} rows={newest} rowKey={({ month }) => month} />
      </Section>
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
      title={
        chart.kind === 'u'
          ? findingOf({ points: chart.points, what: 'Callbacks per 100 jobs', format: one })
          : gapFindingOf({ points: chart.points, what: 'Callbacks', format: (value) => counted(Math.round(value), 'job') })
      }
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
      title={findingOf({ points, what: 'Callbacks per 100 jobs', format: one })}
      summary={`By month of inspection, drawn without limits. ${why}`}
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

/** Dollars, over all months. */
function costPerJob(months: readonly MonthFigures[]): number {
  const [jobs, cents] = months.reduce(([j, c], month) => [j + month.jobs, c + month.incurredCents], [0, 0]);
  return jobs > 0 ? cents / 100 / jobs : 0;
}

function CostChart({ months }: { months: readonly MonthFigures[] }): ReactNode {
  const points = months.map(({ month, jobs, incurredCents, state }) => ({
    label: monthName(month),
    value: jobs > 0 ? incurredCents / 100 / jobs : null,
    young: state !== 'settled',
  }));
  const most = points.reduce((dearest, point) => ((point.value ?? 0) > (dearest.value ?? 0) ? point : dearest));
  return (
    <ControlChart
      title={
        most.value
          ? `Callbacks cost most per job inspected in ${most.label}: ${dollars(most.value)}, beside ${dollars(costPerJob(months))} over all months`
          : 'No callback of these months has cost anything'
      }
      summary={`Cost of callbacks per job, by month of inspection: paid and set aside, less recovered. Single cases move it, so no limits are drawn.`}
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

const SHOWN = 13;
const ofJobs = (count: ReactNode, jobs: number): ReactNode => (
  <>
    {count} of {jobs}
  </>
);

/** Newest first; a table that stays one on a phone. */
const YearEarlier = ({ months }: { months: readonly MonthFigures[] }): ReactNode => (
  <table className={classes.earlier}>
    <caption>
      Callbacks of so many jobs, beside the same month a year earlier: as many as were known when it was as old, and as are known by now
    </caption>
    <thead>
      <tr>
        <th scope="col">Inspected in</th>
        <th scope="col">Now</th>
        <th scope="col">A year earlier at this age</th>
        <th scope="col">by now</th>
      </tr>
    </thead>
    <tbody>
      {months.map(({ month, jobs, callbacks, earlier }) => (
        <tr key={month}>
          <th scope="row">{monthName(month)}</th>
          <td>{ofJobs(found(month, callbacks), jobs)}</td>
          <td>{earlier ? ofJobs(earlier.callbacksAtSameAge, earlier.jobs) : 'no job'}</td>
          <td>{earlier ? found(earlier.month, earlier.callbacks) : ''}</td>
        </tr>
      ))}
    </tbody>
  </table>
);
