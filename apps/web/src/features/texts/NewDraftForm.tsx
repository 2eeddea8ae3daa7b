// Begins a draft as a copy of a text, with the reason for it.
import { useState, type ReactNode } from 'react';
import { Textarea } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { draftText } from '../../api/agreementTexts.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { reason: 'Why a new text' };

export function NewDraftForm({ textId }: { textId: string }): ReactNode {
  const navigate = useNavigate();
  const [id] = useState(newId);
  const save = useSend(draftText, {
    refresh: ['agreement-texts'],
    said: 'The draft is a copy of the text.',
    then: (made) => void navigate({ to: '/agreement-texts/$textId/draft', params: { textId: made.id } }),
  });
  const fields = useFields({ reason: '' }, LABELS, save.error, 'new-draft', textId);
  return (
    <Form
      error={save.error}
      labels={LABELS}
      draft={fields.draft}
      scope="new-draft"
      submit="Begin the draft"
      busy={save.isPending}
      onSubmit={() => save.mutate({ id, copyOf: textId, ...fields.values })}
    >
      <Textarea {...fields.text('reason')} autosize minRows={2} data-autofocus />
    </Form>
  );
}
