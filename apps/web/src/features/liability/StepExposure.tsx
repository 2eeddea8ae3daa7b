// Times that a step applied, by month and by the revision that was frozen for the visit.
import type { ReactNode } from 'react';
import type { StepPage } from '@backsight/contract/liability/steps';
import { ControlChart, type ChartMark } from '../../ui/charts/ControlChart.tsx';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { When } from '../../ui/When.tsx';
import { FailureCount } from './FailureCount.tsx';
import { monthText, shareShort, thousandShort } from './stepWords.ts';
import { TableLink } from './TableLink.tsx';

type Revision = StepPage['revisions'][number];
const COLUMNS: Column<Revision>[] = [
  {
    key: 'number',
    head: 'Revision',
    cell: (r) => (
      <span>
        {r.number}
        <br />
        <small style={{ fontWeight: 'normal' }}>
          {'from '}
          <When at={r.inForceFrom} />
        </small>
      </span>
    ),
  },
  { key: 'times', head: 'Times applied', align: 'right', cell: (r) => r.times.toLocaleString('en-US') },
  { key: 'failures', head: 'Failures', align: 'right', cell: (r) => <FailureCount of={r} /> },
  { key: 'rate', head: 'In 1,000 times', align: 'right', oneLine: true, cell: (r) => thousandShort(r.rate) },
  { key: 'skipped', head: 'Skipped', align: 'right', oneLine: true, cell: (r) => shareShort(r.skipped) },
  { key: 'couldNot', head: 'Could not be inspected', align: 'right', oneLine: true, cell: (r) => shareShort(r.couldNot) },
  { key: 'differed', head: 'Partners differed', align: 'right', oneLine: true, cell: (r) => shareShort(r.differed) },
];

export function StepExposure({ step }: { step: StepPage }): ReactNode {
  if (step.months.length === 0) return <p>It has not applied on any inspection yet.</p>;
  const numbers = new Map(step.revisions.map(({ revisionId, number }) => [revisionId, number]));
  return (
    <>
      <ControlChart
        title={`It applied ${step.times.toLocaleString('en-US')} ${step.times === 1 ? 'time' : 'times'} in ${step.months.length} ${step.months.length === 1 ? 'month' : 'months'}`}
        summary={`Times the step applied by month of the visit, ${monthText(step.months[0]!.month)} to ${monthText(step.months.at(-1)!.month)}.`}
        xName="Month of the visit"
        yName="Times the step applied"
        points={step.months.map((m) => ({ ...m, label: monthText(m.month), value: m.times }))}
        marks={marksOf(step)}
        also={[
          { key: 'jobs', head: 'Jobs', align: 'right', cell: (m) => m.jobs },
          {
            key: 'revisions',
            head: 'By revision',
            cell: (m) => m.revisions.map((r) => `${numbers.get(r.revisionId) ?? 'older'}: ${r.times}`).join('; ') || 'none',
          },
          { key: 'failures', head: 'Failures', align: 'right', cell: (m) => m.failures },
          { key: 'near', head: 'Near-misses', align: 'right', cell: (m) => m.nearMisses },
          { key: 'skipped', head: 'Skipped', align: 'right', cell: (m) => `${m.skipped} of ${m.judged}` },
          { key: 'couldNot', head: 'Could not be inspected', align: 'right', cell: (m) => `${m.couldNot} of ${m.judged}` },
        ]}
      />
      <p>
        <TableLink stepKey={step.stepKey} of="months" />
      </p>
      <DataTable caption="The step by revision" columns={COLUMNS} rows={step.revisions} rowKey={(r) => r.revisionId} />
      <p>
        <TableLink stepKey={step.stepKey} of="revisions" />
      </p>
    </>
  );
}

/** Changes of the text after the first month, each before the month in which it came. */
const marksOf = ({ text, months }: StepPage): ChartMark[] =>
  text.changes.slice(1).flatMap(({ number, inForceFrom }) => {
    const at = months.findIndex(({ month }) => month >= inForceFrom.slice(0, 7));
    return at > 0 ? [{ at, label: `Revision ${number}` }] : [];
  });
