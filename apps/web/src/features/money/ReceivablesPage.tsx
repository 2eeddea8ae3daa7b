// Who owes what, and since when.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { Receivables } from '@backsight/contract/fees';
import { formatUsd } from '@backsight/domain/shared/money';
import { receivablesQuery } from '../../api/fees.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import classes from './receivables.module.css';

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

/** A part for each age, the longest due first and open; the others stay folded until they are asked for. */
function Open({ owed }: { owed: Receivables }): ReactNode {
  const inOrder = [
    ...owed.bands.filter(({ band }) => band !== 'not due').toReversed(),
    ...owed.bands.filter(({ band }) => band === 'not due'),
  ];
  const held = inOrder.filter(({ band }) => owed.items.some((item) => item.band === band));
  const first = held[0]?.band;
  return (
    <>
      <p>
        Together <strong>{formatUsd(owed.totalCents)}</strong> on{' '}
        {owed.items.length === 1 ? 'one invoice' : `${owed.items.length} invoices`}.
      </p>
      {inOrder.map(({ band, cents }) => (
        <Age key={band} band={band} cents={cents} rows={owed.items.filter((item) => item.band === band)} open={band === first} />
      ))}
    </>
  );
}

function Age({ band, cents, rows, open }: { band: Row['band']; cents: number; rows: Row[]; open: boolean }): ReactNode {
  const about = (
    <>
      <h2>{BANDS[band]}</h2>
      <span>{rows.length === 0 ? 'none' : rows.length === 1 ? 'one invoice' : `${rows.length} invoices`}</span>
      <Money cents={cents} />
    </>
  );
  if (rows.length === 0) return <div className={classes.age}>{about}</div>;
  return (
    <details open={open}>
      <summary className={classes.age}>{about}</summary>
      <DataTable caption={BANDS[band]} columns={COLUMNS} rows={rows} rowKey={({ id }) => id} />
    </details>
  );
}
