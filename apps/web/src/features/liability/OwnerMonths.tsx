// Callbacks and their money by month of inspection, each beside the same month a year earlier when it was as old.
import type { ReactNode } from 'react';
import type { OwnerPage } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { formatUsd } from '@backsight/domain/shared/money';
import { counted, monthText } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';
import classes from './Owner.module.css';

type Row = OwnerPage['months'][number];
const cents = (key: string, head: string, of: (row: Row) => number): Column<Row> => ({
  key,
  head,
  align: 'right',
  cell: (row) =>
    of(row) === 0 ? (
      <Money cents={0} />
    ) : (
      <TextLink to="/liabilities/entries" search={{ inspected: row.month }}>
        <Money cents={of(row)} />
      </TextLink>
    ),
});
/** '70 jobs, 2 callbacks, $1,200' of the same month a year earlier when it was as old. */
function asThen({ earlier }: Row): ReactNode {
  const words = earlier
    ? `${counted(earlier.jobs, 'job')}, ${counted(earlier.callbacks, 'callback')}, ${formatUsd(earlier.incurredCents)}`
    : 'no work yet';
  return <span className={classes.before}>{words}</span>;
}
const COLUMNS: Column<Row>[] = [
  { key: 'month', head: 'Inspected in', oneLine: true, cell: (row) => monthText(row.month) },
  {
    key: 'jobs',
    head: 'Jobs',
    align: 'right',
    cell: (row) =>
      row.jobs === 0 ? (
        0
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
        0
      ) : (
        <TextLink to="/liabilities/callbacks" search={{ inspected: row.month }}>
          {row.callbacks}
        </TextLink>
      ),
  },
  cents('paid', 'Paid', (row) => row.paidCents),
  cents('reserved', 'Set aside', (row) => row.reservedCents),
  cents('recovered', 'Recovered', (row) => row.recoveredCents),
  cents('incurred', 'Incurred', (row) => row.incurredCents),
  { key: 'earlier', head: 'A year earlier, as old', align: 'right', cell: asThen },
];
const SHOWN = 13;

export function OwnerMonths({ months }: { months: OwnerPage['months'] }): ReactNode {
  const older = months.slice(SHOWN);
  return (
    <Section
      title="By month of inspection"
      folds
      actions={<TableFiles csv={tableAddress(ownerTables.page, 'months')} of="by month of inspection" />}
    >
      {months.length === 0 ? (
        <Empty>No job has been inspected yet.</Empty>
      ) : (
        <>
          <p>
            <small>
              The last column is the same month a year earlier as it stood a year ago, when it was as old (what it had cost by then, not
              until today): a month that ripens for longer costs more. Callbacks of jobs that were never inspected stand in the month of
              booking.
            </small>
          </p>
          <DataTable
            caption="Callbacks by month of inspection"
            columns={COLUMNS}
            rows={months.slice(0, SHOWN)}
            rowKey={(row) => row.month}
          />
        </>
      )}
      {older.length > 0 ? (
        <details style={{ marginTop: '0.75rem' }}>
          <summary>{`${older.length} months before`}</summary>
          <DataTable caption="Callbacks by earlier month of inspection" columns={COLUMNS} rows={older} rowKey={(row) => row.month} />
        </details>
      ) : null}
    </Section>
  );
}
