// Adds a service or changes one.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, SimpleGrid, TextInput } from '@mantine/core';
import type { ServiceLine } from '@backsight/contract/jobs/services';
import type { Applicability } from '@backsight/domain/shared/applicability';
import { addService, changeService } from '../../api/feeSetUp.ts';
import { newId } from '../../api/ids.ts';
import { RuleEditor } from '../../ui/applicability/RuleEditor.tsx';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  key: 'Short name (letters and _), for life',
  name: 'Name, as the client reads it',
  searchWords: 'Words that callers use, with commas between',
  providerOnly: 'Only outside providers do it',
  extraVisit: 'Short name of the further visit it brings',
  offered: 'It is offered',
  offeredWhen: 'Offered when',
};

type Props = { service?: ServiceLine; names: Record<string, string>; done: () => void };

export function ServiceForm({ service, names, done }: Props): ReactNode {
  const [idempotency] = useState(newId);
  const [offeredWhen, setOfferedWhen] = useState<Applicability>((service?.offeredWhen as Applicability | undefined) ?? { always: true });
  const add = useSend(addService, {
    refresh: ['services'],
    said: 'The service was added. Give it a price in a draft of the fee schedule.',
    then: done,
  });
  const change = useSend(changeService, { refresh: ['services'], said: 'The service was changed.', then: done });
  const error = service ? change.error : add.error;
  const fields = useFields(
    {
      key: service?.key ?? '',
      name: service?.name ?? '',
      searchWords: service?.searchWords.join(', ') ?? '',
      providerOnly: service?.providerOnly ?? false,
      extraVisit: service?.extraVisit ?? '',
      offered: service?.endedOn === null || service === undefined,
      offeredWhen: '',
    },
    LABELS,
    error,
  );
  const send = () => {
    const { key, name, searchWords, providerOnly, extraVisit, offered } = fields.values;
    const words = searchWords
      .split(',')
      .map((word) => word.trim())
      .filter(Boolean);
    const body = { name, searchWords: words, providerOnly, offeredWhen, extraVisit: extraVisit.trim() || null };
    if (service) change.mutate({ ...body, offered, key: service.key, version: service.version });
    else add.mutate({ ...body, key, idempotency });
  };
  return (
    <Form
      error={error}
      labels={LABELS}
      draft={fields.draft}
      submit={service ? 'Save the change' : 'Add this service'}
      busy={add.isPending || change.isPending}
      onSubmit={send}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }} mb="sm">
        {service ? null : <TextInput {...fields.text('key')} required />}
        <TextInput {...fields.text('name')} required />
        <TextInput {...fields.text('searchWords')} />
        <TextInput {...fields.text('extraVisit')} description="Blank when it is done at the inspection" />
      </SimpleGrid>
      <Checkbox mb="sm" {...fields.check('providerOnly')} />
      {service ? <Checkbox mb="sm" {...fields.check('offered')} disabled={service.base} /> : null}
      <RuleEditor legend="Offered when" rule={offeredWhen} services={names} onChange={setOfferedWhen} />
    </Form>
  );
}
