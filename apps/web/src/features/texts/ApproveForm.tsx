// Approves a draft that somebody else wrote: from when it counts, and an owner's reason where a rule of a state says otherwise.
import { useState, type ReactNode } from 'react';
import { Textarea, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import type { TextPage } from '@backsight/contract/agreementTexts';
import { approveText } from '../../api/agreementTexts.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Breaks } from './words.tsx';

const LABELS = {
  inForceFrom: 'In force from',
  reason: 'Why it goes on although a rule says otherwise',
  attorney: 'Attorney who reviewed these words',
  on: 'Reviewed on',
};

export function ApproveForm({ text, onDone }: { text: TextPage; onDone: () => void }): ReactNode {
  const { zone } = useMe();
  const [key, setKey] = useState(newId);
  const save = useSend(approveText, { refresh: ['agreement-texts'], said: 'Approved. New agreements are made from it.', then: onDone });
  const fields = useFields({ inForceFrom: '', reason: '', attorney: '', on: '' }, LABELS, save.error, 'approve');
  const send = () => {
    const { inForceFrom, reason, attorney, on } = fields.values;
    const review = attorney.trim() === '' || on === '' ? null : { attorney, on };
    const from = inForceFrom === '' ? null : DateTime.fromISO(inForceFrom, { zone }).toUTC().toISO();
    save.mutate(
      { id: text.id, key, version: text.version, inForceFrom: from, reason: reason.trim() === '' ? null : reason, review },
      { onError: () => setKey(newId()) },
    );
  };
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="approve"
      draft={fields.draft}
      submit="Approve the text"
      busy={save.isPending}
      onSubmit={send}
    >
      <TextInput
        {...fields.text('inForceFrom')}
        type="datetime-local"
        description="Blank: now. Agreements that were issued stay as they are."
      />
      <Breaks breaks={text.breaks} />
      {text.breaks.length > 0 ? (
        <Textarea {...fields.text('reason')} mt="sm" autosize minRows={2} description="Kept, and listed on the owner's home." />
      ) : null}
      {text.lockedChanged.length > 0 ? (
        <div role="note">
          <p>
            <strong>Other words where an attorney locked them: {text.lockedChanged.join(', ')}.</strong> Only an owner approves them, after
            a new review.
          </p>
          <TextInput {...fields.text('attorney')} maxLength={160} />
          <TextInput {...fields.text('on')} mt="sm" type="date" />
        </div>
      ) : null}
      <p>It is marked as an example until an owner records who reviewed it: a review of another text does not carry over.</p>
    </Form>
  );
}
