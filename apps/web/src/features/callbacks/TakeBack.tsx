// Takes a mistaken payment or recovery back, by a linked entry.
import type { ReactNode } from 'react';
import { Button, Stack, TextInput } from '@mantine/core';
import { reverseEntry } from '../../api/remedies.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';

const LABELS = { words: 'What was wrong' };

export function TakeBack({ entryId, memo }: { entryId: string; memo: string }): ReactNode {
  const [open, setOpen] = useOneOpen(`back-${entryId}`);
  const send = useSend(reverseEntry, { refresh: ['callbacks'], said: 'Taken back.', then: () => setOpen(false) });
  const fields = useFields({ words: '' }, LABELS, send.error);
  if (!open)
    return (
      <Button size="compact-sm" variant="default" aria-label={`Take back: ${memo}`} onClick={() => setOpen(true)}>
        Take back
      </Button>
    );
  return (
    <Stack miw="14rem">
      <Form
        error={send.error}
        labels={LABELS}
        submit="Take it back"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: entryId, ...fields.values })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <TextInput {...fields.text('words')} required />
      </Form>
    </Stack>
  );
}
