// Records that somebody signed the settlement release on paper, and where the paper is kept.
import { useState, type ReactNode } from 'react';
import { Button, Stack, TextInput } from '@mantine/core';
import type { PuttingRight } from '@backsight/contract/callbacks/remedies';
import { signOnSite } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';

type Signer = NonNullable<PuttingRight['releases']>[number]['signers'][number];
const LABELS = { name: 'The name as it is signed', keptWhere: 'Where the signed paper is kept' };

export function PaperSignature({ signer }: { signer: Signer }): ReactNode {
  const [open, setOpen] = useOneOpen(`paper-${signer.id}`);
  if (open) return <Signed signer={signer} onDone={() => setOpen(false)} />;
  return (
    <Button variant="default" size="compact-sm" onClick={() => setOpen(true)}>
      {`${signer.name} signed on paper`}
    </Button>
  );
}

function Signed({ signer, onDone }: { signer: Signer; onDone: () => void }): ReactNode {
  const [id] = useState(newId);
  const send = useSend(signOnSite, { refresh: ['callbacks'], said: 'The signature is on file.', then: onDone });
  const fields = useFields({ name: signer.name, keptWhere: '' }, LABELS, send.error);
  return (
    <Stack maw="40rem" w="100%">
      <Form
        error={send.error}
        labels={LABELS}
        submit="Record the signature"
        busy={send.isPending}
        onSubmit={() => send.mutate({ signerId: signer.id, id, method: 'paper', consent: false, ...fields.values })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <TextInput {...fields.text('name')} required />
        <TextInput {...fields.text('keptWhere')} required placeholder="Folder, drawer" />
      </Form>
    </Stack>
  );
}
