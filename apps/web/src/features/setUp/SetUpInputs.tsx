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
          <TextInput {...text('firm.address')} required />
          <TextInput {...text('firm.zone')} required />
        </SimpleGrid>
      </Fieldset>
      <Fieldset legend="Office" mt="md">
        <SimpleGrid cols={TWO}>
          <TextInput {...text('office.name')} required />
          <TextInput {...text('office.jurisdiction')} required description="For example US-WI" />
          <TextInput {...text('office.lat')} required inputMode="decimal" description="In degrees, for example 44.03" />
          <TextInput {...text('office.lon')} required inputMode="decimal" description="In degrees, west is negative: -88.54" />
        </SimpleGrid>
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
