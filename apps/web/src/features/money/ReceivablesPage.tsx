// Who owes what, and since when.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { Receivables } from '@backsight/contract/fees';
import { formatUsd } from '@backsight/domain/shared/money';
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

const route = getRouteApi('/shell/receivables');
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
    oneLine: true,
    cell: ({ id, number }) => <TextLink to="/invoices/$invoiceId" params={{ invoiceId: id }}>{`Invoice ${number}`}</TextLink>,
  },
  {
    key: 'payer',
    head: 'Owes',
    cell: ({ payerId, payerName }) => (
      <TextLink to="/statements/$partyId" params={{ partyId: payerId }}>
        {payerName}
      </TextLink>
    ),
  },
  { key: 'job', head: 'Job', cell: ({ jobNumber, address }) => `${jobNumber}, ${address}` },
  { key: 'due', head: 'Due', oneLine: true, cell: ({ dueOn }) => <Day day={dueOn} /> },
  { key: 'days', head: 'Days since', align: 'right', cell: ({ band, days }) => (band === 'not due' ? 'not due' : days) },
  { key: 'open', head: 'Open', align: 'right', cell: ({ openCents }) => <Money cents={openCents} /> },
];

const BACK: Column<Receivables['back'][number]>[] = [
  {
    key: 'number',
    head: 'Invoice',
    oneLine: true,
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
            Paid above what invoices ask for, or on withdrawn ones: <Money cents={owed.backCents} />. Record on the invoice when it was
            given back.
          </p>
          <DataTable caption="To be given back" columns={BACK} rows={owed.back} rowKey={({ id }) => id} />
        </Section>
      )}
    </>
  );
}

function Open({ owed }: { owed: Receivables }): ReactNode {
  const { band: only } = route.useSearch();
  const rows = owed.items.filter(({ band }) => only === undefined || band === only);
  return (
    <>
      <Details
        rows={[
          ...owed.bands.map(
            ({ band, cents }) =>
              [
                BANDS[band],
                cents > 0 ? (
                  <TextLink key={band} to="/receivables" search={{ band }} aria-label={`${BANDS[band]}: ${formatUsd(cents)}`}>
                    {formatUsd(cents)}
                  </TextLink>
                ) : (
                  <Money key={band} cents={cents} />
                ),
              ] as const,
          ),
          [
            'Together',
            <TextLink key="all" to="/receivables">
              {formatUsd(owed.totalCents)}
            </TextLink>,
          ],
        ]}
      />
      {only ? <h2>{BANDS[only]}</h2> : null}
      <DataTable caption="Open invoices" columns={COLUMNS} rows={rows} rowKey={({ id }) => id} />
    </>
  );
}
