// One invoice: lines, payments, what is open; record a payment, take one back.
import { useState, type ReactNode } from 'react';
import { Alert, Anchor, Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { METHODS, type Invoice } from '@backsight/contract/fees';
import { invoiceQuery } from '../../api/fees.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Modal } from '../../ui/Modal.ts';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { ChangeDialog, type ChangeKind } from './ChangeDialog.tsx';
import { InvoiceActs } from './InvoiceActs.tsx';
import { PaymentForm } from './PaymentForm.tsx';
import { ReversalDialog } from './ReversalDialog.tsx';

const route = getRouteApi('/shell/invoices/$invoiceId');
const STATES: Record<Invoice['state'], string> = {
  draft: 'draft',
  issued: 'open',
  paid: 'paid in full',
  withdrawn: 'withdrawn; nothing is asked for on it any more',
};
type Payment = Invoice['payments'][number];

const LINES: Column<Invoice['lines'][number]>[] = [
  { key: 'label', head: 'For', cell: ({ label }) => label },
  { key: 'cents', head: 'Amount', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
];

export function InvoicePage(): ReactNode {
  const { invoiceId } = route.useParams();
  const invoice = useQuery(invoiceQuery(invoiceId));
  if (invoice.data) return <Shown invoice={invoice.data} />;
  return <Page title="Invoice">{invoice.isPending ? <Loading /> : <ProblemNote of={invoice.error} />}</Page>;
}

function Shown({ invoice }: { invoice: Invoice }): ReactNode {
  const [paying, setPaying] = useState(false);
  const [change, setChange] = useState<ChangeKind | null>(null);
  const stands = invoice.state === 'issued' || invoice.state === 'paid';
  const takes = invoice.state !== 'draft' && invoice.openCents > 0;
  return (
    <Page
      title={`Invoice ${invoice.number}`}
      about={`${invoice.payerName}, job ${invoice.jobNumber}, ${invoice.address}`}
      actions={
        <Group>
          {takes ? <Button onClick={() => setPaying(true)}>Record a payment</Button> : null}
          {invoice.toGiveBackCents > 0 ? <Button onClick={() => setChange('refund')}>Give money back</Button> : null}
          {stands ? (
            <Button variant="default" onClick={() => setChange('creditNote')}>
              Credit note
            </Button>
          ) : null}
          {stands && invoice.openCents > 0 ? (
            <Button variant="default" onClick={() => setChange('writeOff')}>
              Write off
            </Button>
          ) : null}
        </Group>
      }
    >
      {invoice.handedOverOn ? (
        <Alert title="Handed over, and now unpaid" color="orange" mb="md">
          A payment came back after the report had been handed over on <Day day={invoice.handedOverOn} />. The hand-over stands; the amount
          is open again.
        </Alert>
      ) : null}
      <Head invoice={invoice} />
      <Section title="Lines">
        <DataTable caption={`Lines of invoice ${invoice.number}`} columns={LINES} rows={invoice.lines} rowKey={({ label }) => label} />
      </Section>
      <Section title="Payments">
        <Payments invoice={invoice} />
      </Section>
      <InvoiceActs invoice={invoice} />
      {change ? <ChangeDialog kind={change} invoice={invoice} onClose={() => setChange(null)} /> : null}
      <Modal opened={paying} onClose={() => setPaying(false)} title="Record a payment" closeButtonProps={{ 'aria-label': 'Close' }}>
        <PaymentForm invoice={invoice} onDone={() => setPaying(false)} />
      </Modal>
    </Page>
  );
}

const some = (name: string, cents: number): [string, ReactNode][] => (cents === 0 ? [] : [[name, <Money key={name} cents={cents} />]]);

function Head({ invoice }: { invoice: Invoice }): ReactNode {
  return (
    <Details
      short
      rows={[
        ['State', STATES[invoice.state]],
        ['Total', <Money key="t" cents={invoice.totalCents} />],
        ...some('Of this sales tax', invoice.taxCents),
        ...some('Deposit asked for at booking', invoice.depositCents),
        ...some('Charged for returned payments', invoice.addedCents),
        ...some('Credited', invoice.creditedCents),
        ['Paid', <Money key="p" cents={invoice.paidCents} />],
        ...some('Written off', invoice.writtenOffCents),
        ['Open', <Money key="o" cents={invoice.openCents} />],
        ...some('To be given back', invoice.toGiveBackCents),
        ['Due', <Day key="d" day={invoice.dueOn} />],
        ['Issued', invoice.issuedAt ? <When key="i" at={invoice.issuedAt} /> : 'not yet'],
        ['Job', <TextLink key="j" to="/jobs/$jobId" params={{ jobId: invoice.jobId }}>{`Job ${invoice.jobNumber}`}</TextLink>],
        [
          'Terms',
          <TextLink key="m" to="/jobs/$jobId/money" params={{ jobId: invoice.jobId }}>
            terms and payers
          </TextLink>,
        ],
        [
          'Payer',
          <TextLink key="s" to="/statements/$partyId" params={{ partyId: invoice.payerId }}>
            statement of {invoice.payerName}
          </TextLink>,
        ],
        [
          'Paper',
          <Anchor key="a" href={`/api/invoices/${invoice.id}/paper`} target="_blank" underline="always" inherit>
            open the invoice to print
          </Anchor>,
        ],
      ]}
    />
  );
}

function Payments({ invoice }: { invoice: Invoice }): ReactNode {
  const [taking, setTaking] = useState<Payment | null>(null);
  if (invoice.payments.length === 0) return <p>None yet.</p>;
  const columns: Column<Payment>[] = [
    { key: 'on', head: 'Received', oneLine: true, cell: ({ receivedOn }) => <Day day={receivedOn} /> },
    { key: 'how', head: 'How', cell: ({ method, reference }) => (reference ? `${METHODS[method]} ${reference}` : METHODS[method]) },
    { key: 'cents', head: 'Amount', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
    {
      key: 'paper',
      head: 'Papers',
      cell: ({ id, reversedOn }) => (
        <>
          <Anchor href={`/api/payments/${id}/receipt`} target="_blank" underline="always" inherit>
            receipt
          </Anchor>
          {reversedOn ? (
            <>
              {', '}
              <Anchor href={`/api/payments/${id}/evidence`} download underline="always" inherit>
                evidence file
              </Anchor>
            </>
          ) : null}
        </>
      ),
    },
    { key: 'by', head: 'Recorded by', cell: ({ recordedBy }) => recordedBy ?? 'the service' },
    {
      key: 'back',
      head: 'Taken back',
      cell: (payment) =>
        payment.reversedOn ? (
          <>
            <Day day={payment.reversedOn} />: {payment.reversalMemo}
          </>
        ) : (
          <Button size="compact-sm" variant="default" onClick={() => setTaking(payment)}>
            {invoice.state === 'withdrawn' ? 'Give back' : 'Take back'}
          </Button>
        ),
    },
  ];
  return (
    <>
      <DataTable caption={`Payments of invoice ${invoice.number}`} columns={columns} rows={invoice.payments} rowKey={({ id }) => id} />
      {taking ? <ReversalDialog payment={taking} invoice={invoice} onClose={() => setTaking(null)} /> : null}
    </>
  );
}
