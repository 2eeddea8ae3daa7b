// The next step of a device or sample.
import { useState, type ReactNode } from 'react';
import { NativeSelect, Textarea, TextInput } from '@mantine/core';
import { TEST_STEPS, type TestItem } from '@backsight/contract/sitework/testItems';
import { stepTestItem } from '../../api/desk.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { localInput, toInstant } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { step: 'Next', happenedAt: 'When', moved: 'Found', words: 'Result as told to the client, or why none will come' };
const FOUND = [
  { value: '', label: 'choose' },
  { value: 'no', label: 'as it was placed' },
  { value: 'yes', label: 'moved or disturbed' },
];

export function StepTest({ item, jobId }: { item: TestItem; jobId: string }): ReactNode {
  const { zone } = useMe();
  const [open, setOpen] = useState(false);
  const [key] = useState(newId);
  const step = useSend(stepTestItem, {
    refresh: ['jobs', jobId],
    said: 'It is on record.',
    then: ({ warnings }) => {
      for (const { text } of warnings) saved(text);
    },
  });
  const scope = `step-${item.id}`;
  const fields = useFields(
    { step: item.next[0]!, happenedAt: localInput(new Date(), zone), moved: '', words: '' },
    LABELS,
    step.error,
    scope,
    item.id,
  );
  const { values } = fields;
  const collecting = values.step === 'collected' && item.kind === 'device';
  const worded = values.step === 'told' || values.step === 'given_up';
  const send = () =>
    step.mutate({
      itemId: item.id,
      key: `${key}-${Date.now()}`,
      step: values.step,
      happenedAt: toInstant(values.happenedAt, zone),
      moved: collecting && values.moved !== '' ? values.moved === 'yes' : null,
      words: worded ? values.words : '',
    });
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Record the next step</summary>
      <Form error={step.error} labels={LABELS} scope={scope} draft={fields.draft} submit="Record it" busy={step.isPending} onSubmit={send}>
        <NativeSelect {...fields.text('step')} data={item.next.map((value) => ({ value, label: TEST_STEPS[value] }))} />
        <TextInput {...fields.text('happenedAt')} type="datetime-local" required mt="sm" />
        {collecting ? <NativeSelect {...fields.text('moved')} data={FOUND} required mt="sm" /> : null}
        {worded ? <Textarea {...fields.text('words')} maxLength={1000} autosize minRows={2} required mt="sm" /> : null}
      </Form>
    </details>
  );
}
