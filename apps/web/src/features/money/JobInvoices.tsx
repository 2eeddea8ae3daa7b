// The invoices of one job.
import type { ReactNode } from 'react';
import type { Invoice } from '@backsight/contract/fees';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Day } from '../../ui/When.tsx';

type Row = Omit<Invoice, 'lines' | 'payments' | 'acts' | 'handedOverOn'>;

const COLUMNS: Column<Row>[] = [
  {
    key: 'number',
    head: 'Invoice',
    cell: ({ id, number, state, toGiveBackCents }) => (
      <>
        <TextLink to="/invoices/$invoiceId" params={{ invoiceId: id }}>{`Invoice ${number}`}</TextLink>
        {state === 'withdrawn' ? ', withdrawn' : ''}
        {toGiveBackCents > 0 ? (
          <>
            , to be given back: <Money cents={toGiveBackCents} />
          </>
        ) : null}
      </>
    ),
  },
  { key: 'payer', head: 'Payer', cell: ({ payerName }) => payerName },
  { key: 'due', head: 'Due', oneLine: true, cell: ({ dueOn }) => <Day day={dueOn} /> },
  { key: 'deposit', head: 'Deposit', align: 'right', cell: ({ depositCents }) => (depositCents > 0 ? <Money cents={depositCents} /> : '') },
  { key: 'total', head: 'Total', align: 'right', cell: ({ totalCents }) => <Money cents={totalCents} /> },
  { key: 'paid', head: 'Paid', align: 'right', cell: ({ paidCents }) => <Money cents={paidCents} /> },
  { key: 'open', head: 'Open', align: 'right', cell: ({ openCents }) => <Money cents={openCents} /> },
];

export const JobInvoices = ({ invoices }: { invoices: readonly Row[] }): ReactNode =>
  invoices.length === 0 ? (
    <Empty>Nothing is invoiced yet.</Empty>
  ) : (
    <DataTable caption="Invoices of the job" columns={COLUMNS} rows={invoices} rowKey={({ id }) => id} />
  );
