// The inputs about a person that adding and changing share.
import { useState, type ReactNode } from 'react';
import { Checkbox, Fieldset, NumberInput, SimpleGrid, Stack, TextInput } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { ROLES, type Role } from '@backsight/contract/people';
import { asProblem } from '../../api/problemError.ts';
import { placeQuery } from '../../api/travel.ts';
import type { Fields } from '../../ui/useFields.ts';

export type PersonDraft = {
  name: string;
  email: string;
  phone: string;
  trainee: boolean;
  mayLead: boolean;
  homeAddress: string;
  homeLat: number | '';
  homeLon: number | '';
  roles: Role[];
};

export const PERSON_LABELS: Record<keyof PersonDraft, string> = {
  name: 'Name',
  email: 'E-mail address',
  phone: 'Phone',
  roles: 'Roles',
  trainee: 'Is a trainee',
  mayLead: 'May be the first of a pair',
  homeAddress: 'Home address',
  homeLat: 'Latitude, degrees',
  homeLon: 'Longitude, degrees',
};

export const BLANK: PersonDraft = {
  name: '',
  email: '',
  phone: '',
  trainee: false,
  mayLead: true,
  homeAddress: '',
  homeLat: '',
  homeLon: '',
  roles: ['inspector'],
};

/** What is sent: a number that was left blank is left out, so that the service asks for it. */
export const numberOrNothing = (value: number | ''): number => (value === '' ? (undefined as never) : value);

export function PersonInputs<T extends PersonDraft>({ fields: all }: { fields: Fields<T> }): ReactNode {
  const fields = all as unknown as Fields<PersonDraft>;
  const roles = fields.value('roles');
  return (
    <Stack gap="md">
      <SimpleGrid cols={{ base: 1, xs: 2 }} spacing="md" verticalSpacing="sm">
        <TextInput {...fields.text('name')} autoComplete="off" required />
        <TextInput {...fields.text('phone')} type="tel" autoComplete="off" required />
        <TextInput {...fields.text('email')} type="email" autoComplete="off" description="Also the name to sign in with" required />
      </SimpleGrid>
      <Checkbox.Group
        id={roles.id}
        label={roles.label}
        error={roles.error}
        description="One person may hold several"
        value={roles.value as string[]}
        onChange={(value) => fields.set('roles', value as Role[])}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }} mt="xs" verticalSpacing="xs">
          {Object.entries(ROLES).map(([role, label]) => (
            <Checkbox key={role} value={role} label={label} />
          ))}
        </SimpleGrid>
      </Checkbox.Group>
      <Stack gap="xs">
        <Checkbox {...fields.check('trainee')} description="Always goes with somebody who is not a trainee" />
        <Checkbox {...fields.check('mayLead')} />
      </Stack>
      <Fieldset legend="Where the day begins">
        <TextInput {...fields.text('homeAddress')} autoComplete="off" required />
        <ByZip onFound={({ lat, lon }) => fields.setValues((before) => ({ ...before, homeLat: lat, homeLon: lon }))} />
        <SimpleGrid cols={2} mt="sm">
          <Degrees fields={fields} name="homeLat" />
          <Degrees fields={fields} name="homeLon" />
        </SimpleGrid>
      </Fieldset>
    </Stack>
  );
}

/** Nobody knows their degrees by heart: the ZIP code says them, near enough to plan by. */
function ByZip({ onFound }: { onFound: (place: { lat: number; lon: number }) => void }): ReactNode {
  const [zip, setZip] = useState('');
  const queries = useQueryClient();
  const [said, setSaid] = useState('Fills in latitude and longitude below; set them exactly where it matters');
  const type = async (typed: string) => {
    setZip(typed);
    if (!/^\d{5}$/.test(typed)) return;
    try {
      const place = await queries.fetchQuery(placeQuery({ town: typed, zip: typed }));
      onFound({ lat: Number(place.lat.toFixed(4)), lon: Number(place.lon.toFixed(4)) });
      setSaid(`The middle of ${place.name}`);
    } catch (error) {
      setSaid(asProblem(error)?.message ?? 'The place could not be asked.');
    }
  };
  return (
    <TextInput
      label="ZIP code"
      description={said}
      mt="sm"
      maw="20rem"
      inputMode="numeric"
      maxLength={5}
      autoComplete="off"
      value={zip}
      onChange={(event) => void type(event.currentTarget.value.trim())}
    />
  );
}

function Degrees({ fields, name }: { fields: Fields<PersonDraft>; name: 'homeLat' | 'homeLon' }): ReactNode {
  const { value, onChange, ...rest } = fields.value(name);
  const example = name === 'homeLat' ? '44.0125' : '-88.7210';
  return (
    <NumberInput
      {...rest}
      value={value as number | ''}
      onChange={(typed) => onChange(typed === '' ? '' : Number(typed))}
      description={`Like ${example}`}
      hideControls
      decimalScale={6}
      allowedDecimalSeparators={['.']}
      required
    />
  );
}
