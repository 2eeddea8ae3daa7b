// Says in which capacity a client signs, and on what authority.
import type { ReactNode } from 'react';
import { NativeSelect, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { CAPACITIES, type SignerShown } from '@backsight/contract/agreements';
import { changeSigner } from '../../api/agreements.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { useFields } from '../../ui/useFields.ts';

const LABELS = { capacity: 'Signs', authority: 'Authority on file, or why it is not' };

export function CapacityForm({ signer, onDone }: { signer: SignerShown; onDone: () => void }): ReactNode {
  const queries = useQueryClient();
  const save = useMutation({
    mutationFn: changeSigner,
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['agreements'] });
      saved('Saved.');
      onDone();
    },
  });
  const fields = useFields({ capacity: signer.capacity, authority: signer.authority }, LABELS, save.error, 'capacity');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="capacity"
      submit="Save"
      busy={save.isPending}
      onSubmit={() => save.mutate({ signerId: signer.id, ...fields.values })}
    >
      <NativeSelect {...fields.text('capacity')} data={Object.entries(CAPACITIES).map(([value, label]) => ({ value, label }))} />
      <TextInput {...fields.text('authority')} mt="sm" maxLength={300} placeholder="Power of attorney of May 2, copy on file" />
    </Form>
  );
}
