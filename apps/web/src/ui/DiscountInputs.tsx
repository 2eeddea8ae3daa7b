// A discount while it is typed: an amount or a percentage, and why.
import type { ReactNode } from 'react';
import { NativeSelect, TextInput } from '@mantine/core';
import { centsOf } from './amount.ts';
import classes from './DiscountInputs.module.css';

export type TypedDiscount = { amount: string; unit: 'dollars' | 'percent'; reason: string };
export const NO_DISCOUNT: TypedDiscount = { amount: '', unit: 'dollars', reason: '' };

const percentOf = (typed: string): number => (/^\d{1,3}(?:\.\d{1,2})?\s*%?$/.test(typed.trim()) ? Number.parseFloat(typed) : Number.NaN);

/** As it is sent; null while there is none, or what is typed is no amount. */
export function discountSent({
  amount,
  unit,
  reason,
}: TypedDiscount): { cents: number | null; percent: number | null; reason: string } | null {
  if (amount.trim() === '') return null;
  const value = unit === 'dollars' ? centsOf(amount) : percentOf(amount);
  if (Number.isNaN(value) || value <= 0 || (unit === 'percent' && value > 100)) return null;
  return { cents: unit === 'dollars' ? value : null, percent: unit === 'percent' ? value : null, reason: reason.trim() };
}

type Props = { value: TypedDiscount; onChange: (value: TypedDiscount) => void; problem?: string | null };

export function DiscountInputs({ value, onChange, problem = null }: Props): ReactNode {
  const wrong = value.amount.trim() !== '' && discountSent(value) === null;
  const error = wrong ? (value.unit === 'dollars' ? 'An amount such as 50 or 49.50' : 'A percentage such as 10 or 7.5') : problem;
  return (
    <div className={classes.inputs}>
      <TextInput
        label="Discount"
        inputMode="decimal"
        value={value.amount}
        error={error}
        onChange={(event) => onChange({ ...value, amount: event.currentTarget.value })}
      />
      <NativeSelect
        label="in"
        value={value.unit}
        data={[
          { value: 'dollars', label: 'dollars' },
          { value: 'percent', label: 'percent' },
        ]}
        onChange={(event) => onChange({ ...value, unit: event.currentTarget.value as TypedDiscount['unit'] })}
      />
      <TextInput
        className={classes.reason}
        label="Why"
        description="Never for a referral, for what is found, or for whether the sale closes."
        inputWrapperOrder={['label', 'input', 'description', 'error']}
        maxLength={120}
        value={value.reason}
        onChange={(event) => onChange({ ...value, reason: event.currentTarget.value })}
      />
    </div>
  );
}
