// What a text limits: the most that the firm pays, and a time to claim of its own; both nothing by default.
import type { ReactNode } from 'react';
import { Group, NativeSelect, NumberInput } from '@mantine/core';
import type { TextLimits } from '@backsight/contract/agreementTexts';

const CAPS = [
  { value: 'none', label: 'no limit' },
  { value: 'factor', label: 'a multiple of the fee' },
  { value: 'amount', label: 'an amount' },
];
const FRESH = { none: { kind: 'none' }, factor: { kind: 'factor', tenths: 10 }, amount: { kind: 'amount', cents: 1_000_000 } } as const;

type Props = { limits: TextLimits; onChange: (limits: TextLimits) => void };

export function LimitsEditor({ limits, onChange }: Props): ReactNode {
  const { cap, claimMonths } = limits;
  return (
    <Group mt="sm" align="flex-end" gap="sm">
      <NativeSelect
        label="Limit of liability"
        data={CAPS}
        value={cap.kind}
        onChange={(event) => onChange({ ...limits, cap: FRESH[event.currentTarget.value as keyof typeof FRESH] })}
      />
      {cap.kind === 'factor' ? (
        <NumberInput
          label="Times the fee"
          w={130}
          hideControls
          decimalScale={1}
          min={0.1}
          value={cap.tenths / 10}
          onChange={(value) => onChange({ ...limits, cap: { kind: 'factor', tenths: Math.round(Number(value) * 10) } })}
        />
      ) : null}
      {cap.kind === 'amount' ? (
        <NumberInput
          label="Amount in dollars"
          w={150}
          hideControls
          thousandSeparator=","
          decimalScale={2}
          min={0}
          value={cap.cents / 100}
          onChange={(value) => onChange({ ...limits, cap: { kind: 'amount', cents: Math.round(Number(value) * 100) } })}
        />
      ) : null}
      <NumberInput
        label="Months to claim, if the text sets a time"
        w={280}
        hideControls
        allowDecimal={false}
        min={1}
        value={claimMonths ?? ''}
        onChange={(value) => onChange({ ...limits, claimMonths: value === '' ? null : Number(value) })}
      />
    </Group>
  );
}
