// Records money that came in for an invoice, whole or in part.
import { useState, type ReactNode } from 'react';
import { NativeSelect, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { METHODS, type Invoice } from '@backsight/contract/fees';
import { formatUsd, parseUsd } from '@backsight/domain/shared/money';
import { recordPayment, type NewPayment } from '../../api/fees.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';

const LABELS = { cents: 'Amount', method: 'How', reference: 'Number of the check, card slip or transfer', receivedOn: 'Received on' };

export function PaymentForm({ invoice, onDone }: { invoice: Invoice; onDone: () => void }): ReactNode {
  const { zone } = useMe();
  const queries = useQueryClient();
  const [id] = useState(newId);
  const [unclear, setUnclear] = useState(false);
  const save = useMutation({
    mutationFn: recordPayment,
    onSuccess: async ({ openCents }) => {
      await queries.invalidateQueries({ queryKey: ['money'] });
      saved(openCents === 0 ? 'Recorded. The invoice is paid in full.' : `Recorded. ${formatUsd(openCents)} is still open.`);
      onDone();
    },
  });
  const start = { cents: formatUsd(invoice.openCents), method: 'check' as NewPayment['method'], reference: '', receivedOn: todayIn(zone) };
  const fields = useFields(start, LABELS, save.error, 'payment');
  const send = () => {
    const cents = parseUsd(fields.values.cents);
    setUnclear(cents === null);
    if (cents !== null) save.mutate({ ...fields.values, id, invoiceId: invoice.id, cents });
  };
  const amount = fields.text('cents');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="payment"
      draft={fields.draft}
      submit="Record the payment"
      busy={save.isPending}
      onSubmit={send}
    >
      <TextInput
        {...amount}
        inputMode="decimal"
        description={`${formatUsd(invoice.openCents)} is open; a part is fine.`}
        error={unclear ? 'An amount like 450 or 450.00' : amount.error}
        onFocus={(event) => event.currentTarget.select()}
        data-autofocus
      />
      <NativeSelect {...fields.text('method')} mt="sm" data={Object.entries(METHODS).map(([value, label]) => ({ value, label }))} />
      {fields.values.method === 'cash' ? null : <TextInput {...fields.text('reference')} mt="sm" maxLength={80} />}
      <TextInput {...fields.text('receivedOn')} mt="sm" type="date" />
    </Form>
  );
}
