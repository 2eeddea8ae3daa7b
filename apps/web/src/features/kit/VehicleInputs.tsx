// What is asked of a vehicle besides: seats and the longest ladder that it carries.
import type { ReactNode } from 'react';
import { NumberInput } from '@mantine/core';
import type { Fields } from '../../ui/useFields.ts';

type Vehicle = { seats: number | ''; ladderFeet: number | '' };
export const VEHICLE_LABELS = { seats: 'Seats', ladderFeet: 'Longest ladder, feet' };
export const NO_VEHICLE: Vehicle = { seats: '', ladderFeet: '' };
/** Blank is not known. */
export const vehicleOf = ({ seats, ladderFeet }: Vehicle): { seats: number | null; ladderFeet: number | null } => ({
  seats: seats === '' ? null : seats,
  ladderFeet: ladderFeet === '' ? null : ladderFeet,
});

export function VehicleInputs<T extends Vehicle>({ fields: all }: { fields: Fields<T> }): ReactNode {
  const fields = all as unknown as Fields<Vehicle>;
  return (['seats', 'ladderFeet'] as const).map((name) => {
    const { value, onChange, ...rest } = fields.value(name);
    return (
      <NumberInput
        key={name}
        {...rest}
        value={value as number | ''}
        onChange={(typed) => onChange(typed === '' ? '' : Number(typed))}
        min={1}
        allowDecimal={false}
      />
    );
  });
}
