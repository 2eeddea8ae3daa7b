// Says in which capacity a client signs, and on what authority.
import { useState, type ReactNode } from 'react';
import { FileInput, NativeSelect, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { CAPACITIES, type SignerShown } from '@backsight/contract/agreements';
import { changeSigner, fileAuthority } from '../../api/agreements.ts';
import { asProblem } from '../../api/problemError.ts';
import { asBase64 } from '../../ui/file.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { inputId, useFields } from '../../ui/useFields.ts';

const LABELS = { capacity: 'Signs', authority: 'Which authority, or why it is not on file' };

export function CapacityForm({ signer, onDone }: { signer: SignerShown; onDone: () => void }): ReactNode {
  const queries = useQueryClient();
  const [file, setFile] = useState<File | null>(null);
  const save = useMutation({
    mutationFn: async ({ file: paper, change }: { file: File | null; change: Parameters<typeof changeSigner>[0] }) => {
      if (paper) await fileAuthority({ signerId: signer.id, file: { name: paper.name, base64: await asBase64(paper) } });
      return changeSigner(change);
    },
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
      onSubmit={() => save.mutate({ file, change: { signerId: signer.id, ...fields.values } })}
    >
      <NativeSelect {...fields.text('capacity')} data={Object.entries(CAPACITIES).map(([value, label]) => ({ value, label }))} />
      <TextInput {...fields.text('authority')} mt="sm" maxLength={300} placeholder="Power of attorney of May 2" />
      <FileInput
        id={inputId('file', 'capacity')}
        label="The paper that allows it (picture or PDF)"
        description={signer.authorityFile ? `On file: ${signer.authorityFile}. A new one takes its place.` : undefined}
        accept="image/jpeg,image/png,application/pdf"
        mt="sm"
        clearable
        clearButtonProps={{ 'aria-label': 'Take the file out' }}
        value={file}
        onChange={setFile}
        error={asProblem(save.error)?.fields.find(({ field }) => field.startsWith('file'))?.message}
      />
    </Form>
  );
}
