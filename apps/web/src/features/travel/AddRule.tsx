// Says how long a drive takes: between two areas in minutes, or longer for every drive from or to one.
import { useState, type ReactNode } from 'react';
import { Button, Fieldset, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import type { TravelPage } from '@backsight/contract/schedule/travel';
import { readCoordinates } from '@backsight/domain/shared/coordinates';
import { newId } from '../../api/ids.ts';
import { addTravelRule, endTravelRule, type NewTravelRule } from '../../api/travel.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { kmOf } from './units.ts';

const LABELS = {
  kind: 'What is known',
  a: 'Area',
  aPlace: 'Its middle',
  aMiles: 'Miles around it',
  b: 'Other area',
  bPlace: 'Its middle ',
  bMiles: 'Miles around it ',
  minutes: 'Minutes on the road, parking included',
  percent: 'Percent longer',
  reason: 'Why',
};
type Values = Record<keyof typeof LABELS, string>;

/** The middle as typed, else that of the town of this name; 0, 0 when neither is known, which the service refuses in words. */
function areaOf(name: string, place: string, miles: string, towns: TravelPage['towns']) {
  const middle = readCoordinates(place) ?? towns.find((town) => town.name === name) ?? { lat: 0, lon: 0 };
  return { name: name || place, lat: middle.lat, lon: middle.lon, radiusKm: kmOf(Number(miles) || 0) };
}

function bodyOf(values: Values, id: string, towns: TravelPage['towns']): NewTravelRule {
  const a = areaOf(values.a, values.aPlace, values.aMiles, towns);
  return values.kind === 'between'
    ? {
        id,
        kind: 'between',
        a,
        b: areaOf(values.b, values.bPlace, values.bMiles, towns),
        minutes: Number(values.minutes),
        reason: values.reason,
      }
    : { id, kind: 'within', a, percent: Number(values.percent), reason: values.reason };
}

export function AddRule({ towns, done }: { towns: TravelPage['towns']; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addTravelRule, {
    refresh: ['travel'],
    said: 'It counts from now on.',
    then: done,
    undo:
      ({ id }) =>
      () =>
        endTravelRule(id),
  });
  const initial: Values = {
    kind: 'between',
    a: '',
    aPlace: '',
    aMiles: '2',
    b: '',
    bPlace: '',
    bMiles: '2',
    minutes: '',
    percent: '',
    reason: '',
  };
  const fields = useFields(initial, LABELS, add.error);
  const between = fields.values.kind === 'between';
  const area = (title: string, side: 'a' | 'b') => (
    <Fieldset legend={title}>
      <TextInput {...fields.text(side)} list="towns" required description="A town of yours, or a name of your own" />
      <TextInput
        {...fields.text(`${side}Place`)}
        description="Latitude, longitude; empty for a town of yours"
        placeholder="44.19, -88.46"
      />
      <TextInput {...fields.text(`${side}Miles`)} inputMode="decimal" required />
    </Fieldset>
  );
  return (
    <Form
      error={add.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Let it count"
      busy={add.isPending}
      onSubmit={() => add.mutate({ ...bodyOf(fields.values, ids.id, towns), key: ids.key })}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <datalist id="towns">
        {towns.map(({ name }) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </datalist>
      <NativeSelect
        {...fields.text('kind')}
        data={[
          { value: 'between', label: 'The minutes between two areas' },
          { value: 'within', label: 'Every drive from or to an area takes longer' },
        ]}
        mb="sm"
      />
      <SimpleGrid cols={{ base: 1, xs: between ? 2 : 1 }}>
        {area(between ? 'From or to' : 'Area', 'a')}
        {between ? area('To or from', 'b') : null}
      </SimpleGrid>
      <SimpleGrid cols={{ base: 1, xs: 2 }} mt="sm">
        {between ? (
          <TextInput {...fields.text('minutes')} inputMode="numeric" required />
        ) : (
          <TextInput {...fields.text('percent')} inputMode="numeric" required description="Below zero for shorter" />
        )}
        <TextInput {...fields.text('reason')} required placeholder="The bridge is closed until June" />
      </SimpleGrid>
    </Form>
  );
}
