// The inputs of the set-up, in the order in which one thinks of them.
import type { ReactNode } from 'react';
import { Checkbox, Fieldset, PasswordInput, SimpleGrid, TextInput } from '@mantine/core';
import type { Fields } from '../../ui/useFields.ts';
import type { Values } from './fields.ts';

const TWO = { base: 1, xs: 2 };

export function SetUpInputs({ fields, hours }: { fields: Fields<Values>; hours: ReactNode }): ReactNode {
  const { text, check } = fields;
  return (
    <>
      <TextInput {...text('code')} required autoComplete="off" maw="20rem" />
      <Fieldset legend="Firm" mt="md">
        <SimpleGrid cols={TWO}>
          <TextInput {...text('firm.name')} required />
          <TextInput {...text('firm.email')} type="email" required />
          <TextInput {...text('firm.phone')} type="tel" required />
          <TextInput {...text('firm.onCallPhone')} type="tel" required />
          <TextInput {...text('firm.address')} required autoComplete="street-address" />
        </SimpleGrid>
      </Fieldset>
      <Fieldset legend="Office" mt="md">
        <SimpleGrid cols={TWO}>
          <TextInput {...text('office.name')} required />
          <TextInput
            {...text('office.zip')}
            required
            inputMode="numeric"
            maxLength={5}
            autoComplete="postal-code"
            description="It says the state, the time zone and the towns around"
          />
        </SimpleGrid>
        <details style={{ marginTop: 'var(--bs-space-5)' }}>
          <summary>The office lies elsewhere than in the middle of its ZIP code</summary>
          <SimpleGrid cols={TWO} mt="xs">
            <TextInput {...text('office.lat')} inputMode="decimal" description="For example 44.03" />
            <TextInput {...text('office.lon')} inputMode="decimal" description="West is negative: -88.54" />
          </SimpleGrid>
        </details>
      </Fieldset>
      {hours}
      <Fieldset legend="Owner" mt="md">
        <SimpleGrid cols={TWO}>
          <TextInput {...text('owner.name')} required />
          <TextInput {...text('owner.phone')} type="tel" required />
          <TextInput {...text('owner.email')} type="email" required autoComplete="username" />
          <PasswordInput
            {...text('owner.password')}
            required
            autoComplete="new-password"
            description="At least 12 characters"
            visibilityToggleButtonProps={{ 'aria-label': 'Show the password', tabIndex: 0 }}
          />
        </SimpleGrid>
      </Fieldset>
      <Checkbox
        {...check('beginWithExamples')}
        mt="md"
        description="Everything in them can be changed. No attorney has reviewed the agreement text."
      />
    </>
  );
}
