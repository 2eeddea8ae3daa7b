// What came of asking after closing whether it held.
import type { ReactNode } from 'react';
import { Button, NativeSelect, NumberInput, Stack, Textarea, TextInput } from '@mantine/core';
import { CHECK_OUTCOMES } from '@backsight/contract/callbacks/after';
import { answerCheck } from '../../api/callbacksAfter.ts';
import { Form } from '../Form.tsx';
import { useFields } from '../useFields.ts';
import { useSend } from '../useSend.ts';

const LABELS = {
  outcome: 'What came of it',
  words: 'What was said (may stay empty)',
  againOn: 'Try once more on (may stay empty)',
  repeatNumber: 'Number of the newer callback that says so (may stay empty: this one opens again then)',
};

/** `id` is the callback's; `done` when it was written down or left. */
export function CheckForm({ id, done }: { id: string; done: () => void }): ReactNode {
  const scope = `check-${id}`;
  const send = useSend(answerCheck, { refresh: ['callbacks'], said: 'Written down.', then: done });
  const fields = useFields(
    { outcome: 'held' as keyof typeof CHECK_OUTCOMES, words: '', againOn: '', repeatNumber: '' as number | string },
    LABELS,
    send.error,
    scope,
  );
  const { outcome, words, againOn, repeatNumber } = fields.values;
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
        scope={scope}
        draft={fields.draft}
        submit="Write it down"
        busy={send.isPending}
        onSubmit={() => send.mutate(sent)}
        besides={
          <Button variant="default" onClick={done}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('outcome')} data={Object.entries(CHECK_OUTCOMES).map(([value, label]) => ({ value, label }))} />
        {outcome === 'not_reached' ? <TextInput {...fields.text('againOn')} type="date" mt="sm" /> : null}
        {outcome === 'came_back' ? <NumberInput {...fields.value('repeatNumber')} min={1} allowDecimal={false} mt="sm" /> : null}
        <Textarea {...fields.text('words')} autosize minRows={2} mt="sm" />
      </Form>
    </Stack>
  );
}
