// An owner records which attorney reviewed a text and when.
import { useState, type ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import type { TextPage } from '@backsight/contract/agreementTexts';
import { recordReview } from '../../api/agreementTexts.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { attorney: 'Who reviewed it', on: 'On' };

export function ReviewForm({ text, onDone }: { text: TextPage; onDone: () => void }): ReactNode {
  const { zone } = useMe();
  const [key, setKey] = useState(newId);
  const [locked, setLocked] = useState<string[]>(text.lockedHere);
  const save = useSend(recordReview, { refresh: ['agreement-texts'], said: 'The review was recorded.', then: onDone });
  const fields = useFields({ attorney: '', on: todayIn(zone) }, LABELS, save.error, 'review');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="review"
      submit="Record the review"
      busy={save.isPending}
      onSubmit={() => save.mutate({ textId: text.id, key, locked, ...fields.values }, { onError: () => setKey(newId()) })}
    >
      <TextInput {...fields.text('attorney')} maxLength={160} data-autofocus />
      <TextInput {...fields.text('on')} mt="sm" type="date" />
      <Checkbox.Group
        mt="md"
        label="Clauses that are locked"
        description="They are not reworded without a new review."
        value={locked}
        onChange={setLocked}
      >
        {text.clauses.map(({ key: clause, title }) => (
          <Checkbox key={clause} mt="xs" value={clause} label={title || `without a title (${clause})`} />
        ))}
      </Checkbox.Group>
    </Form>
  );
}
