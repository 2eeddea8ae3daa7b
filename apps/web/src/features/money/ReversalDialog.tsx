// Takes a payment back, so that the invoice opens again; or gives it back, when the invoice was withdrawn. The payment stays on file.
import { useState, type ReactNode } from 'react';
import { Checkbox, NativeSelect } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { REVERSAL_REASONS, type Invoice } from '@backsight/contract/fees';
import { formatUsd } from '@backsight/domain/shared/money';
import { moneyRulesQuery, reversePayment, type Reversal } from '../../api/fees.ts';
import { newId } from '../../api/ids.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { saved } from '../../ui/saved.ts';

type Props = { payment: Invoice['payments'][number]; invoice: Invoice; onClose: () => void };

export function ReversalDialog({ payment, invoice, onClose }: Props): ReactNode {
  const queries = useQueryClient();
  const [key] = useState(newId);
  const withdrawn = invoice.state === 'withdrawn';
  const [reason, setReason] = useState<Reversal>(withdrawn ? 'given_back' : 'returned_check');
  const [charge, setCharge] = useState(false);
  const fee = useQuery(moneyRulesQuery).data?.returnedFeeCents ?? 0;
  const came = reason === 'returned_check' || reason === 'card_dispute';
  const save = useMutation({
    mutationFn: () => reversePayment({ paymentId: payment.id, reason, charge, key }),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['money'] });
      saved(withdrawn ? 'Recorded.' : 'Taken back. The invoice is open again.');
      onClose();
    },
  });
  return (
    <ConfirmDialog
      opened
      title={withdrawn ? 'Give a payment back' : 'Take a payment back'}
      act={withdrawn ? 'Record it' : 'Take it back'}
      busy={save.isPending}
      error={save.error}
      onConfirm={() => save.mutate()}
      onClose={onClose}
    >
      <p>
        {formatUsd(payment.cents)} comes off what was paid{withdrawn ? '' : `, and invoice ${invoice.number} is open again`}. The payment
        stays on file with the reason.
      </p>
      <NativeSelect
        label="Why"
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value as Reversal)}
        data={Object.entries(REVERSAL_REASONS)
          .filter(([value]) => withdrawn || value !== 'given_back')
          .map(([value, label]) => ({ value, label }))}
      />
      {came && fee > 0 && !withdrawn ? (
        <Checkbox
          mt="md"
          label={`Charge ${formatUsd(fee)} for the returned payment`}
          checked={charge}
          onChange={(event) => setCharge(event.currentTarget.checked)}
        />
      ) : null}
    </ConfirmDialog>
  );
}
