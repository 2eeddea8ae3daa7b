// Records a signature that was given on paper or on the pair's device.
import { useState, type ReactNode } from 'react';
import { Checkbox, Radio, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { SignerShown } from '@backsight/contract/agreements';
import { signOnSite } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { useFields } from '../../ui/useFields.ts';

const LABELS = {
  method: 'How was it signed?',
  name: 'Name as signed',
  consent: 'The client read the agreement and agrees to electronic records',
};
type Draft = { method: 'paper' | 'on_site_device'; name: string; consent: boolean };

export function OnSiteForm({ signer, onDone }: { signer: SignerShown; onDone: () => void }): ReactNode {
  const queries = useQueryClient();
  const [id] = useState(newId);
  const save = useMutation({
    mutationFn: signOnSite,
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['agreements'] });
      saved('The signature was recorded.');
      onDone();
    },
  });
  const fields = useFields<Draft>({ method: 'paper', name: signer.name, consent: false }, LABELS, save.error, 'sign');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="sign"
      submit="Record the signature"
      busy={save.isPending}
      onSubmit={() => save.mutate({ id, signerId: signer.id, ...fields.values })}
    >
      <Radio.Group {...fields.value('method')}>
        <Radio value="paper" label="On paper" description="Keep the paper with the job." mt="xs" />
        <Radio value="on_site_device" label="On this device, by the client" mt="xs" />
      </Radio.Group>
      <TextInput {...fields.text('name')} mt="sm" maxLength={120} />
      {fields.values.method === 'on_site_device' ? <Checkbox {...fields.check('consent')} mt="sm" /> : null}
    </Form>
  );
}
