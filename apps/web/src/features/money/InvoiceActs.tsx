// What else happened to an invoice: credit notes, write-offs, refunds, charges for returned payments.
import type { ReactNode } from 'react';
import { Anchor, Button } from '@mantine/core';
import { INVOICE_ACTS, METHODS, type Invoice } from '@backsight/contract/fees';
import { takeBackAct } from '../../api/fees.ts';
import { newId } from '../../api/ids.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';

type Act = Invoice['acts'][number];

export function InvoiceActs({ invoice }: { invoice: Invoice }): ReactNode {
  const back = useSend(takeBackAct, { refresh: ['money'], said: 'Taken back. The invoice is as before.' });
  if (invoice.acts.length === 0) return null;
  const columns: Column<Act>[] = [
    {
      key: 'what',
      head: 'What',
      cell: ({ id, kind, number }) =>
        kind === 'credit_note' ? (
          <Anchor href={`/api/credit-notes/${id}/paper`} target="_blank" underline="always" inherit>{`Credit note ${number}`}</Anchor>
        ) : (
          INVOICE_ACTS[kind]
        ),
    },
    { key: 'on', head: 'Day', oneLine: true, cell: ({ happenedOn }) => <Day day={happenedOn} /> },
    {
      key: 'why',
      head: 'Reason',
      cell: ({ reason, method, reference }) => (method ? `${reason} (${METHODS[method]} ${reference})` : reason),
    },
    { key: 'by', head: 'By', cell: ({ recordedBy }) => recordedBy ?? 'the service' },
    { key: 'cents', head: 'Amount', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
    {
      key: 'back',
      head: 'Taken back',
      cell: ({ id, kind, takenBackOn }) =>
        takenBackOn ? (
          <Day day={takenBackOn} />
        ) : kind === 'write_off' || kind === 'returned_fee' ? (
          <Button size="compact-sm" variant="default" loading={back.isPending} onClick={() => back.mutate({ actId: id, key: newId() })}>
            Take back
          </Button>
        ) : (
          ''
        ),
    },
  ];
  return (
    <Section title="Credit notes, write-offs, refunds and charges">
      <ProblemNote of={back.error} />
      <DataTable
        caption={`What else happened to invoice ${invoice.number}`}
        columns={columns}
        rows={invoice.acts}
        rowKey={({ id }) => id}
      />
    </Section>
  );
}
