// What came of asking whether it held.
import type { ReactNode } from 'react';
import { Button, NativeSelect, NumberInput, Stack, Textarea, TextInput } from '@mantine/core';
import type { Callback } from '@backsight/contract/callbacks';
import { CHECK_OUTCOMES } from '@backsight/contract/callbacks/after';
import { answerCheck } from '../../api/callbacksAfter.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

const LABELS = {
  outcome: 'What came of it',
  words: 'What was said (may stay empty)',
  againOn: 'Try once more on (may stay empty)',
  repeatNumber: 'Number of the newer callback that says so (may stay empty: this one opens again then)',
};

export function CheckForm({ callback: { id } }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('check');
  const send = useSend(answerCheck, { refresh: ['callbacks'], said: 'Written down.', then: () => setOpen(false) });
  const fields = useFields(
    { outcome: 'held' as keyof typeof CHECK_OUTCOMES, words: '', againOn: '', repeatNumber: '' as number | string },
    LABELS,
    send.error,
  );
  const { outcome, words, againOn, repeatNumber } = fields.values;
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Ask whether it held
      </Button>
    );
  const sent = {
    ...{ id, outcome },
    ...(words.trim() ? { words } : {}),
    ...(outcome === 'not_reached' && againOn ? { againOn } : {}),
    ...(outcome === 'came_back' && repeatNumber !== '' ? { repeatNumber: Number(repeatNumber) } : {}),
  };
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Write it down"
        busy={send.isPending}
        onSubmit={() => send.mutate(sent)}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('outcome')} data={options(CHECK_OUTCOMES)} />
        {outcome === 'not_reached' ? <TextInput {...fields.text('againOn')} type="date" mt="sm" /> : null}
        {outcome === 'came_back' ? <NumberInput {...fields.value('repeatNumber')} min={1} allowDecimal={false} mt="sm" /> : null}
        <Textarea {...fields.text('words')} autosize minRows={2} mt="sm" />
      </Form>
    </Stack>
  );
}
