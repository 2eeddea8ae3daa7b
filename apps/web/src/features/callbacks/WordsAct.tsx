// An act that takes a few words: opened by a button, sent by a button that names the act.
import type { ReactNode } from 'react';
import { Button, Stack, Textarea } from '@mantine/core';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';

type Props = { act: string; label: string; said: string; needed?: boolean; send: (words: string | undefined) => Promise<unknown> };

export function WordsAct({ act, label, said, needed = false, send }: Props): ReactNode {
  const [open, setOpen] = useOneOpen(act);
  const sending = useSend(send, { refresh: ['callbacks'], said, then: () => setOpen(false) });
  const labels = { words: label };
  const fields = useFields({ words: '' }, labels, sending.error, undefined, act);
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        {act}
      </Button>
    );
  return (
    <Stack w="100%" maw="40rem">
      <Form
        error={sending.error}
        labels={labels}
        draft={fields.draft}
        submit={act}
        busy={sending.isPending}
        onSubmit={() => sending.mutate(fields.values.words.trim() || undefined)}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <Textarea {...fields.text('words')} required={needed} autosize minRows={2} autoFocus />
      </Form>
    </Stack>
  );
}
