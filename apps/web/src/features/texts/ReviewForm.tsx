// An owner records which attorney reviewed a text and when.
import { useState, type ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import { recordReview } from '../../api/agreementTexts.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { attorney: 'Who reviewed it', on: 'On' };

export function ReviewForm({ textId, onDone }: { textId: string; onDone: () => void }): ReactNode {
  const { zone } = useMe();
  const [key, setKey] = useState(newId);
  const save = useSend(recordReview, { refresh: ['agreement-texts'], said: 'The review was recorded.', then: onDone });
  const fields = useFields({ attorney: '', on: todayIn(zone) }, LABELS, save.error, 'review');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="review"
      submit="Record the review"
      busy={save.isPending}
      onSubmit={() => save.mutate({ textId, key, ...fields.values }, { onError: () => setKey(newId()) })}
    >
      <TextInput {...fields.text('attorney')} maxLength={160} data-autofocus />
      <TextInput {...fields.text('on')} mt="sm" type="date" />
    </Form>
  );
}
