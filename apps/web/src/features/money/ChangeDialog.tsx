// Takes something off an invoice or gives money back: credit note, write-off, refund; each with its reason.
import { useState, type ReactNode } from 'react';
import { NativeSelect, TextInput } from '@mantine/core';
import { METHODS, type Invoice } from '@backsight/contract/fees';
import { formatUsd } from '@backsight/domain/shared/money';
import { refundPayment, writeCreditNote, writeOff, type Refund } from '../../api/fees.ts';
import { newId } from '../../api/ids.ts';
import { centsOf, dollarsOf } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { Modal } from '../../ui/Modal.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

export type ChangeKind = 'creditNote' | 'writeOff' | 'refund';

const WORDS: Record<ChangeKind, { title: string; act: string; about: (invoice: Invoice) => string; most: (invoice: Invoice) => number }> = {
  creditNote: {
    title: 'Write a credit note',
    act: 'Write the credit note',
    about: () => 'The fee was asked for too high. The credit note gets the next number; what was paid above the rest is to be given back.',
    most: ({ totalCents, creditedCents }) => totalCents - creditedCents,
  },
  writeOff: {
    title: 'Write off',
    act: 'Write it off',
    about: () => 'The fee stands, but nobody will pay it: an expense of the firm. It can be taken back when somebody pays after all.',
    most: ({ openCents }) => openCents,
  },
  refund: {
    title: 'Give money back',
    act: 'Record the refund',
    about: () => 'Record money that went back to whoever paid.',
    most: ({ toGiveBackCents }) => toGiveBackCents,
  },
};
const LABELS = { cents: 'Amount', reason: 'Reason', method: 'How', reference: 'Number of the check, card slip or transfer' };

export function ChangeDialog({ kind, invoice, onClose }: { kind: ChangeKind; invoice: Invoice; onClose: () => void }): ReactNode {
  const { title, act, about, most } = WORDS[kind];
  const [id] = useState(newId);
  const send = (all: Refund) => {
    const { method: _m, reference: _r, ...change } = all;
    return kind === 'refund' ? refundPayment(all) : kind === 'writeOff' ? writeOff(change) : writeCreditNote(change);
  };
  const save = useSend(send, { refresh: ['money'], said: 'Recorded.', then: onClose });
  const start = { cents: dollarsOf(most(invoice)), reason: '', method: 'check' as Refund['method'], reference: '' };
  const fields = useFields(start, LABELS, save.error, 'change', kind);
  const submit = () => save.mutate({ ...fields.values, id, invoiceId: invoice.id, cents: centsOf(fields.values.cents) });
  return (
    <Modal opened onClose={onClose} title={`${title}, invoice ${invoice.number}`} closeButtonProps={{ 'aria-label': 'Close' }}>
      <p>{about(invoice)}</p>
      <Form error={save.error} labels={LABELS} scope="change" draft={fields.draft} submit={act} busy={save.isPending} onSubmit={submit}>
        <TextInput
          {...fields.text('cents')}
          inputMode="decimal"
          description={`At most ${formatUsd(most(invoice))}.`}
          onFocus={(event) => event.currentTarget.select()}
          data-autofocus
        />
        <TextInput {...fields.text('reason')} mt="sm" maxLength={200} />
        {kind === 'refund' ? (
          <NativeSelect {...fields.text('method')} mt="sm" data={Object.entries(METHODS).map(([value, label]) => ({ value, label }))} />
        ) : null}
        {kind === 'refund' && fields.values.method !== 'cash' ? <TextInput {...fields.text('reference')} mt="sm" maxLength={80} /> : null}
      </Form>
    </Modal>
  );
}
