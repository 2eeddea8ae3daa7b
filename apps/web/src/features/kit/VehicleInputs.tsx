// What is asked of a piece besides: of a vehicle its seats and the longest ladder that it carries, of a ladder its length, of what is worn its size.
import type { ReactNode } from 'react';
import { NativeSelect, NumberInput } from '@mantine/core';
import { SIZES, type KitKind, type Size } from '@backsight/contract/people/kit';
import type { Fields } from '../../ui/useFields.ts';

type Vehicle = { seats: number | ''; ladderFeet: number | ''; size: Size | '' };
export const VEHICLE_LABELS = { seats: 'Seats', ladderFeet: 'Ladder length, feet', size: 'Size' };
export const NO_VEHICLE: Vehicle = { seats: '', ladderFeet: '', size: '' };
/** Blank is not known. */
export const vehicleOf = ({
  seats,
  ladderFeet,
  size,
}: Vehicle): { seats: number | null; ladderFeet: number | null; size: Size | null } => ({
  size: size === '' ? null : size,
  seats: seats === '' ? null : seats,
  ladderFeet: ladderFeet === '' ? null : ladderFeet,
});

/** Which of them a kind of kit has. */
const askedOf = (kind: string): ('seats' | 'ladderFeet')[] =>
  kind === 'vehicle' ? ['seats', 'ladderFeet'] : kind === 'ladder' ? ['ladderFeet'] : [];

export function VehicleInputs<T extends Vehicle>({
  fields: all,
  kind,
}: {
  fields: Fields<T>;
  kind: Pick<KitKind, 'key' | 'worn'>;
}): ReactNode {
  const fields = all as unknown as Fields<Vehicle>;
  if (kind.worn)
    return (
      <NativeSelect
        {...fields.text('size')}
        data={[{ value: '', label: 'choose' }, ...SIZES.map((size) => ({ value: size, label: size }))]}
        required
      />
    );
  return askedOf(kind.key).map((name) => {
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
