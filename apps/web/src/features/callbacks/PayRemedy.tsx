// Records how an approved remedy was paid; a fee goes back against the invoice that was paid.
import type { ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid, Stack, TextInput } from '@mantine/core';
import type { Callback } from '@backsight/contract/callbacks';
import { METHODS, type PuttingRight } from '@backsight/contract/callbacks/remedies';
import { formatUsd } from '@backsight/domain/shared/money';
import { payRemedy } from '../../api/callbacks.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

const LABELS = { paidOn: 'Paid on', method: 'How', reference: 'Number of the check or transfer', invoiceId: 'Back on which invoice' };
type Props = { remedy: Callback['remedies'][number]; right: PuttingRight | undefined };

export function PayRemedy({ remedy, right }: Props): ReactNode {
  const [open, setOpen] = useOneOpen(`pay-${remedy.id}`);
  const { zone } = useMe();
  const send = useSend(payRemedy, { refresh: ['callbacks'], said: 'Paid.', then: () => setOpen(false) });
  const invoices = remedy.kind === 'fee_refund' ? (right?.paidInvoices ?? []) : [];
  const fields = useFields(
    { paidOn: todayIn(zone), method: 'check' as keyof typeof METHODS, reference: '', invoiceId: '' },
    LABELS,
    send.error,
    undefined,
    remedy.id,
  );
  if (!open) return <Button onClick={() => setOpen(true)}>Record the payment</Button>;
  const { invoiceId, ...values } = fields.values;
  return (
    <Stack maw="40rem" w="100%">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Record the payment"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: remedy.id, ...values, ...(invoiceId ? { invoiceId } : {}) })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('paidOn')} type="date" required />
          <NativeSelect {...fields.text('method')} data={options(METHODS)} />
          <TextInput {...fields.text('reference')} />
          {invoices.length > 0 ? (
            <NativeSelect
              {...fields.text('invoiceId')}
              data={[
                { value: '', label: 'The one with the most paid' },
                ...invoices.map((i) => ({ value: i.id, label: `${i.number}, ${i.payer}: ${formatUsd(i.leftCents)} left` })),
              ]}
            />
          ) : null}
        </SimpleGrid>
      </Form>
    </Stack>
  );
}
