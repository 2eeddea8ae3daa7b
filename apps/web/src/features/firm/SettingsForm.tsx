// The firm's settings; others than the owner read them.
import type { ReactNode } from 'react';
import { Checkbox, NativeSelect, NumberInput, SimpleGrid, TextInput } from '@mantine/core';
import type { Firm } from '@backsight/contract/firm';
import { changeFirm } from '../../api/firm.ts';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  name: 'Name',
  phone: 'Phone',
  email: 'E-mail',
  address: 'Address',
  zone: 'Time zone',
  onCallPhone: 'Phone outside office hours',
  holdMinutes: 'Minutes that a hold lasts',
  graceDays: 'Days of grace to acknowledge a revision',
  reportDueDays: 'Business days within which a report is promised',
  paperSize: 'Paper of agreements, invoices and reports',
  everySigner: 'Every client must sign before the visit may start',
};

const PAPERS = { letter: 'US Letter, 8.5 by 11 inches', a4: 'A4, 210 by 297 mm' };

export function SettingsForm({ firm, mayChange }: { firm: Firm; mayChange: boolean }): ReactNode {
  return (
    <Section folds title="Settings">
      {mayChange ? <Change firm={firm} /> : <Shown firm={firm} />}
    </Section>
  );
}

function Shown({ firm }: { firm: Firm }): ReactNode {
  return (
    <Details
      rows={[
        ['Name', firm.name],
        ['Phone', firm.phone],
        ['E-mail', firm.email],
        ['Address', firm.address],
        ['Outside office hours', firm.onCallPhone],
        ['A hold lasts', `${firm.holdMinutes} minutes`],
        ['A report is promised within', `${firm.reportDueDays} business days`],
        ['Paper', PAPERS[firm.paperSize]],
      ]}
    />
  );
}

function Change({ firm }: { firm: Firm }): ReactNode {
  const { name, phone, email, address, zone, onCallPhone, holdMinutes, graceDays, reportDueDays, paperSize, everySigner, version } = firm;
  const save = useSend(changeFirm, { refresh: ['firm'], said: 'The settings were saved.' });
  const fields = useFields(
    { name, phone, email, address, zone, onCallPhone, holdMinutes, graceDays, reportDueDays, paperSize, everySigner },
    LABELS,
    save.error,
  );
  const { text } = fields;
  const number = (key: 'holdMinutes' | 'graceDays' | 'reportDueDays') => (
    <NumberInput {...fields.number(key)} allowDecimal={false} allowNegative={false} />
  );
  return (
    <Form
      error={save.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Save the settings"
      busy={save.isPending}
      onSubmit={() => save.mutate({ version, change: fields.values })}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...text('name')} required />
        <TextInput {...text('email')} type="email" required />
        <TextInput {...text('phone')} type="tel" required />
        <TextInput {...text('onCallPhone')} type="tel" required />
        <TextInput {...text('address')} required />
        <TextInput {...text('zone')} required />
        {number('holdMinutes')}
        {number('graceDays')}
        {number('reportDueDays')}
        <NativeSelect {...text('paperSize')} data={Object.entries(PAPERS).map(([value, label]) => ({ value, label }))} />
      </SimpleGrid>
      <Checkbox {...fields.check('everySigner')} mt="md" />
    </Form>
  );
}
