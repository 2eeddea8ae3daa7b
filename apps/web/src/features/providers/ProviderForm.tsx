// Adds an outside provider, or changes one: his work, his price, his time beside ours, and his papers.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import type { Provider } from '@backsight/contract/schedule/crew';
import { addProvider, changeProvider } from '../../api/crew.ts';
import { newId } from '../../api/ids.ts';
import { centsOf, dollarsOf } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  serviceKey: 'Service',
  name: 'Name',
  phone: 'Phone',
  costCents: 'Cost agreed, in dollars',
  minutes: 'Minutes at the house',
  offsetMinutes: 'Begins how many minutes after our start',
  licenseUntil: 'License valid until',
  insuranceUntil: 'Insurance certificate valid until',
  contractsWithUs: 'Works under contract with the firm, not with the client',
  endedOn: 'No longer works with us since',
};

const blank = (serviceKey: string) => ({
  serviceKey,
  name: '',
  phone: '',
  costCents: '',
  minutes: '60',
  offsetMinutes: '0',
  licenseUntil: '',
  insuranceUntil: '',
  contractsWithUs: false,
  endedOn: '',
});

const typedOf = (p: Provider): ReturnType<typeof blank> => ({
  serviceKey: p.serviceKey,
  name: p.name,
  phone: p.phone,
  costCents: dollarsOf(p.costCents),
  minutes: String(p.minutes),
  offsetMinutes: String(p.offsetMinutes),
  licenseUntil: p.licenseUntil ?? '',
  insuranceUntil: p.insuranceUntil ?? '',
  contractsWithUs: p.contractsWithUs,
  endedOn: p.endedOn ?? '',
});

type Props = { services: { key: string; name: string }[]; provider?: Provider; done: () => void };

export function ProviderForm({ services, provider, done }: Props): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addProvider, { refresh: ['providers'], said: 'The provider was added.', then: done });
  const change = useSend(changeProvider, { refresh: ['providers'], said: 'The provider was changed.', then: done });
  const error = provider ? change.error : add.error;
  const fields = useFields(provider ? typedOf(provider) : blank(services[0]?.key ?? ''), LABELS, error);
  const send = () => {
    const { serviceKey, costCents, minutes, offsetMinutes, licenseUntil, insuranceUntil, endedOn, ...rest } = fields.values;
    const body = {
      ...rest,
      costCents: centsOf(costCents),
      minutes: Number(minutes),
      offsetMinutes: Number(offsetMinutes),
      licenseUntil: licenseUntil || null,
      insuranceUntil: insuranceUntil || null,
      endedOn: endedOn || null,
    };
    if (provider) change.mutate({ ...body, id: provider.id, version: provider.version });
    else add.mutate({ ...body, ...ids, serviceKey });
  };
  return (
    <Form
      error={error}
      labels={LABELS}
      draft={fields.draft}
      submit={provider ? 'Save the change' : 'Add this provider'}
      busy={add.isPending || change.isPending}
      onSubmit={send}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        {provider ? null : (
          <NativeSelect {...fields.text('serviceKey')} data={services.map(({ key, name }) => ({ value: key, label: name }))} />
        )}
        <TextInput {...fields.text('name')} required />
        <TextInput {...fields.text('phone')} type="tel" required />
        <TextInput {...fields.text('costCents')} inputMode="decimal" required />
        <TextInput {...fields.text('minutes')} inputMode="numeric" required />
        <TextInput {...fields.text('offsetMinutes')} inputMode="numeric" required />
        <TextInput {...fields.text('licenseUntil')} type="date" description="Blank when none is asked. Not offered after this day" />
        <TextInput {...fields.text('insuranceUntil')} type="date" description="Not offered after this day" />
        {provider ? <TextInput {...fields.text('endedOn')} type="date" /> : null}
      </SimpleGrid>
      <Checkbox mt="md" {...fields.check('contractsWithUs')} />
    </Form>
  );
}
