// Says that a callback is the same as an earlier one of the property, or came back after it.
import type { ReactNode } from 'react';
import { Button, NativeSelect, Stack, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { KINDS, STATES, type Callback } from '@backsight/contract/callbacks';
import { earlierQuery, linkCallback, unlinkCallback } from '../../api/callbackIntake.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';

const LABELS = { 'link.to': 'Which earlier one', kind: 'How they belong together', words: 'Why (may stay empty)' };
const HOW = [
  { value: 'duplicate', label: 'The same, told once more: this one is closed' },
  { value: 'repeat', label: 'It came back after that one: both go on' },
];

export function LinkEarlier({ callback }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('link');
  const earlier = useQuery(earlierQuery(callback.job.id));
  const send = useSend(linkCallback, {
    refresh: ['callbacks'],
    said: 'They are linked.',
    then: () => setOpen(false),
    undo:
      ({ id }) =>
      () =>
        unlinkCallback({ id, words: 'Linked by mistake, taken back at once.' }),
  });
  const fields = useFields({ 'link.to': '', kind: 'duplicate' as 'duplicate' | 'repeat', words: '' }, LABELS, send.error);
  const others = (earlier.data ?? []).filter(({ id, number }) => id !== callback.id && number < callback.number);
  if (others.length === 0) return null;
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Link to an earlier one here
      </Button>
    );
  const words = fields.values.words.trim();
  const to = fields.values['link.to'] || others[0]!.id;
  return (
    <Stack w="100%" maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        submit="Link them"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: callback.id, link: { to, kind: fields.values.kind }, ...(words ? { words } : {}) })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <NativeSelect
          {...fields.text('link.to')}
          data={others.map(({ id, number, kind, state, place }) => ({
            value: id,
            label: `${number}: ${KINDS[kind]}, ${place}, ${STATES[state]}`,
          }))}
        />
        <NativeSelect {...fields.text('kind')} data={HOW} />
        <TextInput {...fields.text('words')} />
      </Form>
    </Stack>
  );
}
