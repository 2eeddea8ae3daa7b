// Enters the miles of a day: typed, or read from the odometer. Entering a day again corrects it.
import { useState, type ReactNode } from 'react';
import { NativeSelect, NumberInput, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { MileageDay } from '@backsight/contract/people/own';
import { newId } from '../../../api/ids.ts';
import { enterMileage } from '../../../api/own.ts';
import { useMe } from '../../../api/people.ts';
import { kitQuery } from '../../../api/personFile.ts';
import { Form } from '../../../ui/Form.tsx';
import { todayIn } from '../../../ui/time.ts';
import { useFields, type Fields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Leave } from '../file/AddPart.tsx';

const LABELS = {
  day: 'Day',
  tenths: 'Miles driven',
  odometerStart: 'Odometer at the start',
  odometerEnd: 'Odometer at the end',
  vehicleId: 'Vehicle',
  note: 'Note',
};
type Draft = { day: string; tenths: number | ''; odometerStart: number | ''; odometerEnd: number | ''; vehicleId: string; note: string };

const draftOf = (row: MileageDay | null, today: string): Draft => ({
  day: row?.day ?? today,
  tenths: row?.entered && row.entered.odometerStart === null ? row.entered.tenths / 10 : '',
  odometerStart: row?.entered?.odometerStart ?? '',
  odometerEnd: row?.entered?.odometerEnd ?? '',
  vehicleId: row?.entered?.vehicleId ?? '',
  note: row?.entered?.note ?? '',
});
const orNull = (value: number | ''): number | null => (value === '' ? null : value);

export function EnterMiles({ personId, row, done }: { personId: string; row: MileageDay | null; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const kit = useQuery(kitQuery);
  const enter = useSend(enterMileage, { refresh: ['mileage'], said: 'The miles are entered.', then: done });
  const fields = useFields(draftOf(row, todayIn(zone)), LABELS, enter.error, 'miles');
  const { day, tenths, odometerStart, odometerEnd, vehicleId, note } = fields.values;
  const vehicles = (kit.data?.items ?? []).filter(({ kind, endedOn }) => kind === 'vehicle' && endedOn === null);
  const send = () =>
    enter.mutate({
      day,
      tenths: tenths === '' ? null : Math.round(tenths * 10),
      odometerStart: orNull(odometerStart),
      odometerEnd: orNull(odometerEnd),
      vehicleId: vehicleId || null,
      note,
      ...ids,
      personId,
    });
  return (
    <Form
      error={enter.error}
      labels={LABELS}
      scope="miles"
      draft={fields.draft}
      submit="Enter these miles"
      busy={enter.isPending}
      onSubmit={send}
      besides={<Leave done={done} />}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('day')} type="date" required max={todayIn(zone)} />
        <NativeSelect
          {...fields.text('vehicleId')}
          data={[{ value: '', label: 'own vehicle' }, ...vehicles.map(({ id, serial }) => ({ value: id, label: serial }))]}
        />
      </SimpleGrid>
      <SimpleGrid cols={{ base: 1, xs: 3 }} mt="sm">
        <Miles fields={fields} name="tenths" decimals={1} about="Or both readings" />
        <Miles fields={fields} name="odometerStart" decimals={0} />
        <Miles fields={fields} name="odometerEnd" decimals={0} />
      </SimpleGrid>
      <TextInput {...fields.text('note')} mt="sm" />
    </Form>
  );
}

type MilesProps = { fields: Fields<Draft>; name: 'tenths' | 'odometerStart' | 'odometerEnd'; decimals: number; about?: string };

function Miles({ fields, name, decimals, about }: MilesProps): ReactNode {
  const { value, onChange, ...rest } = fields.value(name);
  return (
    <NumberInput
      {...rest}
      value={value as number | ''}
      onChange={(typed) => onChange(typed === '' ? '' : Number(typed))}
      decimalScale={decimals}
      min={0}
      inputMode="decimal"
      description={about}
      inputWrapperOrder={['label', 'input', 'description', 'error']}
      hideControls
    />
  );
}
