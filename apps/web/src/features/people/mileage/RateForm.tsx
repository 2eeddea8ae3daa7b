// What a mile is repaid with; the owner sets it.
import { useState, type ReactNode } from 'react';
import { Button, NumberInput } from '@mantine/core';
import { changeMileageRate } from '../../../api/own.ts';
import { numberTyped } from '../../../ui/amount.ts';
import { Form } from '../../../ui/Form.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Leave } from '../file/AddPart.tsx';

const LABELS = { tenthCents: 'Cents per mile' };

export function RateForm({ tenthCents }: { tenthCents: number }): ReactNode {
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  const change = useSend(changeMileageRate, {
    refresh: ['mileage'],
    said: 'The rate is set.',
    then: close,
    undo: () => () => changeMileageRate(tenthCents),
  });
  const fields = useFields({ tenthCents: tenthCents / 10 }, LABELS, change.error, 'rate');
  if (!open)
    return (
      <Button size="compact-sm" variant="default" mt="sm" onClick={() => setOpen(true)}>
        Change the rate
      </Button>
    );
  return (
    <Form
      error={change.error}
      labels={LABELS}
      scope="rate"
      submit="Set the rate"
      busy={change.isPending}
      onSubmit={() => change.mutate(Math.round(numberTyped(fields.values.tenthCents) * 10))}
      besides={<Leave done={close} />}
    >
      <NumberInput {...fields.number('tenthCents')} min={0} max={1000} step={0.5} decimalScale={1} maw="16rem" mt="sm" />
    </Form>
  );
}
