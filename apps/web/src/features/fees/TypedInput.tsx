// Inputs that keep what was typed while it is no number yet, and hand on what it comes to.
import { useState, type ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import { centsOf, dollarsOf } from '../../ui/amount.ts';

type Props = { label: string; width?: number };

/** Dollars typed, cents handed on; not a number for what is no amount. */
export function AmountInput({
  label,
  cents,
  onChange,
  width = 140,
}: Props & { cents: number; onChange: (cents: number) => void }): ReactNode {
  const [typed, setTyped] = useState(dollarsOf(cents));
  const wrong = Number.isNaN(centsOf(typed));
  return (
    <TextInput
      label={label}
      w={width}
      inputMode="decimal"
      value={typed}
      error={wrong ? 'Give dollars, for example 125.50' : undefined}
      onChange={(event) => {
        setTyped(event.currentTarget.value);
        onChange(centsOf(event.currentTarget.value));
      }}
    />
  );
}

/** A number; blank means none where `none` says what that is. */
export function NumberTyped({
  label,
  value,
  onChange,
  none,
  width = 140,
}: Props & { value: number | null; onChange: (value: number | null) => void; none?: string }): ReactNode {
  const [typed, setTyped] = useState(value === null ? '' : String(value));
  const read = (text: string): number | null =>
    text.trim() === '' ? (none === undefined ? Number.NaN : null) : Number(text.replaceAll(',', ''));
  const now = read(typed);
  return (
    <TextInput
      label={label}
      w={width}
      inputMode="decimal"
      placeholder={none}
      value={typed}
      error={now !== null && Number.isNaN(now) ? 'Give a number' : undefined}
      onChange={(event) => {
        setTyped(event.currentTarget.value);
        onChange(read(event.currentTarget.value));
      }}
    />
  );
}
