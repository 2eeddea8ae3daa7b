// The inputs about a person that adding and changing share.
import { useEffect, useRef, useState, type ReactNode, type RefObject } from 'react';
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

/** The place that is being asked for, so that whoever is faster waits for it instead of being told that it is missing. */
export type Finding = RefObject<Promise<Pick<PersonDraft, 'homeLat' | 'homeLon'> | null> | null>;

export function PersonInputs<T extends PersonDraft>({ fields: all, placeRef }: { fields: Fields<T>; placeRef?: Finding }): ReactNode {
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
        <ByZip fields={fields} placeRef={placeRef} />
        <details open={exactIsWrong(fields) || undefined} style={{ marginTop: 'var(--bs-space-5)' }}>
          <summary>The home lies elsewhere than in the middle of its ZIP code</summary>
          <SimpleGrid cols={2} mt="xs">
            <Degrees fields={fields} name="homeLat" />
            <Degrees fields={fields} name="homeLon" />
          </SimpleGrid>
        </details>
      </Fieldset>
    </Stack>
  );
}

type Of = { fields: Fields<PersonDraft> };

/** What was typed as degrees cannot be: then it is shown. */
const exactIsWrong = ({ value, values }: Of['fields']): boolean =>
  (['homeLat', 'homeLon'] as const).some((name) => values[name] !== '' && value(name).error !== undefined);

const ABOUT = 'Says where it is, near enough to plan by; taken from the end of the address';

/** Nobody knows their degrees by heart: the ZIP code says them. What is on file already stays until another ZIP code is typed. */
function ByZip({ fields, placeRef }: Of & { placeRef: Finding | undefined }): ReactNode {
  const queries = useQueryClient();
  const { homeAddress, homeLat } = fields.values;
  const [typed, setTyped] = useState<string | null>(null);
  const [said, setSaid] = useState(ABOUT);
  const ofAddress = /\b(\d{5})(-\d{4})?$/.exec(homeAddress.trim())?.[1] ?? '';
  const zip = typed ?? ofAddress;
  const asked = useRef(homeLat === '' ? '' : zip);
  const { setValues } = fields;
  const find = async () => {
    try {
      const { name, lat, lon } = await queries.fetchQuery(placeQuery({ town: zip, zip }));
      if (asked.current !== zip) return null;
      const place = { homeLat: Number(lat.toFixed(4)), homeLon: Number(lon.toFixed(4)) };
      setValues((before) => ({ ...before, ...place }));
      setSaid(`The middle of ${name}`);
      return place;
    } catch (error) {
      setSaid(asProblem(error)?.message ?? 'The place could not be asked.');
      return null;
    }
  };
  useEffect(() => {
    if (asked.current === zip || !/^\d{5}$/.test(zip)) return;
    asked.current = zip;
    const place = find();
    if (placeRef) placeRef.current = place;
  });
  const nowhere = homeLat === '' ? fields.value('homeLat') : null;
  return (
    <TextInput
      id={nowhere?.id}
      error={nowhere?.error}
      label="ZIP code"
      description={said}
      mt="sm"
      maw="20rem"
      inputMode="numeric"
      maxLength={5}
      autoComplete="off"
      required={nowhere !== null}
      value={zip}
      onChange={(event) => setTyped(event.currentTarget.value.trim())}
    />
  );
}

function Degrees({ fields, name }: Of & { name: 'homeLat' | 'homeLon' }): ReactNode {
  const { value, onChange, error } = fields.value(name);
  const example = name === 'homeLat' ? '44.0125' : '-88.7210';
  return (
    <NumberInput
      label={PERSON_LABELS[name]}
      error={value === '' ? undefined : error}
      value={value as number | ''}
      onChange={(typed) => onChange(typed === '' ? '' : Number(typed))}
      description={`Like ${example}`}
      hideControls
      decimalScale={6}
      allowedDecimalSeparators={['.']}
    />
  );
}
