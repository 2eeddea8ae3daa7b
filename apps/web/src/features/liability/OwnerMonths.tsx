// What inspections cost by their month, drawn, and the same months as a table, each beside the one a year earlier when it was as old.
import type { ReactNode } from 'react';
import type { OwnerPage } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { formatUsd, shortUsd } from '@backsight/domain/shared/money';
import { tableAddress } from '../../api/tables.ts';
import { ControlChart } from '../../ui/charts/ControlChart.tsx';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { counted, monthText } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';
import classes from './Owner.module.css';

type Row = OwnerPage['months'][number];
const none = <span className={classes.before}>0</span>;
const entries = (row: Row, cents: number): ReactNode =>
  cents === 0 ? (
    none
  ) : (
    <TextLink to="/liabilities/entries" search={{ inspected: row.month }}>
      <Money cents={cents} />
    </TextLink>
  );
const MONTH: Column<Row> = { key: 'month', head: 'Inspected in', oneLine: true, cell: (row) => monthText(row.month) };
const INCURRED: Column<Row> = { key: 'incurred', head: 'Incurred', align: 'right', cell: (row) => entries(row, row.incurredCents) };
const OTHERS: Column<Row>[] = [
  {
    key: 'jobs',
    head: 'Jobs',
    align: 'right',
    cell: (row) =>
      row.jobs === 0 ? (
        none
      ) : (
        <TextLink to="/liabilities/windows/jobs" search={{ inspected: row.month, only: 'all' }}>
          {row.jobs.toLocaleString('en-US')}
        </TextLink>
      ),
  },
  {
    key: 'callbacks',
    head: 'Callbacks',
    align: 'right',
    cell: (row) =>
      row.callbacks === 0 ? (
        none
      ) : (
        <TextLink to="/liabilities/callbacks" search={{ inspected: row.month }}>
          {row.callbacks}
        </TextLink>
      ),
  },
  {
    key: 'paid',
    head: 'Paid',
    align: 'right',
    cell: (row) => (
      <>
        {entries(row, row.paidCents)}
        {row.recoveredCents === 0 ? null : (
          <>
            <br />
            <small>{`${formatUsd(row.recoveredCents)} came back`}</small>
          </>
        )}
      </>
    ),
  },
  { key: 'reserved', head: 'Set aside', align: 'right', cell: (row) => entries(row, row.reservedCents) },
];
/** The same month a year earlier when it was as old. */
const EARLIER: Column<Row> = {
  key: 'earlier',
  head: 'A year earlier, as old',
  align: 'right',
  cell: ({ earlier }) => (
    <span className={classes.before}>
      {earlier ? (
        <>
          {formatUsd(earlier.incurredCents)}
          <br />
          <small>{`${counted(earlier.jobs, 'job')}, ${counted(earlier.callbacks, 'callback')}`}</small>
        </>
      ) : (
        'no work yet'
      )}
    </span>
  ),
};
const DRAWN = 24;

export function OwnerMonths({ months }: { months: OwnerPage['months'] }): ReactNode {
  const older = months.slice(DRAWN);
  return (
    <Section
      title="By month of inspection"
      folds
      actions={<TableFiles csv={tableAddress(ownerTables.page, 'months')} of="by month of inspection" />}
    >
      {months.length === 0 ? <Empty>No job has been inspected yet.</Empty> : <Drawn months={months.slice(0, DRAWN)} />}
      {older.length > 0 ? (
        <details style={{ marginTop: 'var(--bs-space-5)' }}>
          <summary>{counted(older.length, 'earlier month')}</summary>
          <DataTable
            caption="Callbacks by earlier month of inspection"
            columns={[MONTH, ...OTHERS, INCURRED, EARLIER]}
            rows={older}
            rowKey={(row) => row.month}
          />
        </details>
      ) : null}
    </Section>
  );
}

/** Newest month first. */
function Drawn({ months }: { months: readonly Row[] }): ReactNode {
  const points = months.toReversed().map((row) => ({ ...row, label: monthText(row.month), value: row.incurredCents / 100 }));
  const total = months.reduce((sum, { incurredCents }) => sum + incurredCents, 0);
  const most = months.reduce((dearest, row) => (row.incurredCents > dearest.incurredCents ? row : dearest));
  const last = counted(months.length, 'month');
  return (
    <ControlChart
      title={
        most.incurredCents > 0
          ? `Inspections of ${monthText(most.month)} cost most: ${shortUsd(most.incurredCents)} of ${shortUsd(total)} in ${last}`
          : `No inspection of the last ${last} has cost anything`
      }
      summary="Paid and set aside, less recovered. New months still ripen: the table has each beside the same month a year earlier, as it stood when it was as old. Callbacks of jobs that were never inspected stand in the month of booking."
      points={points}
      xName="Inspected in"
      yName="Incurred, dollars"
      format={(value) => `$${value.toLocaleString('en-US', { maximumFractionDigits: 0 })}`}
      also={[...OTHERS, EARLIER]}
    />
  );
}
