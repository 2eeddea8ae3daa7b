// Who owes what, and since when.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { Receivables } from '@backsight/contract/fees';
import { receivablesQuery } from '../../api/fees.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';

type Row = Receivables['items'][number];

const BANDS: Record<Row['band'], string> = {
  'not due': 'Not due yet',
  '0-30': 'Due for up to 30 days',
  '31-60': '31 to 60 days',
  '61-90': '61 to 90 days',
  'over 90': 'More than 90 days',
};

const COLUMNS: Column<Row>[] = [
  {
    key: 'number',
    head: 'Invoice',
    cell: ({ id, number }) => <TextLink to="/invoices/$invoiceId" params={{ invoiceId: id }}>{`Invoice ${number}`}</TextLink>,
  },
  { key: 'payer', head: 'Owes', cell: ({ payerName }) => payerName },
  { key: 'job', head: 'Job', cell: ({ jobNumber, address }) => `${jobNumber}, ${address}` },
  { key: 'due', head: 'Due', oneLine: true, cell: ({ dueOn }) => <Day day={dueOn} /> },
  { key: 'days', head: 'Days since', align: 'right', cell: ({ band, days }) => (band === 'not due' ? 'not due' : days) },
  { key: 'open', head: 'Open', align: 'right', cell: ({ openCents }) => <Money cents={openCents} /> },
];

const BACK: Column<Receivables['back'][number]>[] = [
  {
    key: 'number',
    head: 'Invoice',
    cell: ({ id, number }) => <TextLink to="/invoices/$invoiceId" params={{ invoiceId: id }}>{`Invoice ${number}`}</TextLink>,
  },
  { key: 'payer', head: 'To', cell: ({ payerName }) => payerName },
  { key: 'job', head: 'Job', cell: ({ jobNumber, address }) => `${jobNumber}, ${address}` },
  { key: 'cents', head: 'To give back', align: 'right', cell: ({ toGiveBackCents }) => <Money cents={toGiveBackCents} /> },
];

export function ReceivablesPage(): ReactNode {
  const owed = useQuery(receivablesQuery);
  return (
    <Page title="Who owes what" about="Invoices on which something is open, longest due first, and what is to be given back.">
      <ProblemNote of={owed.error} />
      {owed.isPending ? <Loading /> : null}
      {owed.data ? <Owed owed={owed.data} /> : null}
    </Page>
  );
}

function Owed({ owed }: { owed: Receivables }): ReactNode {
  return (
    <>
      {owed.items.length === 0 ? <Empty>Nobody owes anything.</Empty> : <Open owed={owed} />}
      {owed.back.length === 0 ? null : (
        <Section title="To be given back">
          <p>
            Paid on invoices that were withdrawn: <Money cents={owed.backCents} />. Record on the invoice when it was given back.
          </p>
          <DataTable caption="To be given back" columns={BACK} rows={owed.back} rowKey={({ id }) => id} />
        </Section>
      )}
    </>
  );
}

function Open({ owed }: { owed: Receivables }): ReactNode {
  return (
    <>
      <Details
        rows={[
          ...owed.bands.map(({ band, cents }) => [BANDS[band], <Money key={band} cents={cents} />] as const),
          ['Together', <Money key="all" cents={owed.totalCents} />],
        ]}
      />
      <DataTable caption="Open invoices" columns={COLUMNS} rows={owed.items} rowKey={({ id }) => id} />
    </>
  );
}
