// Begins the draft of the revision that a corrective action brings, or joins the draft that is already open.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, Stack, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { Callback } from '@backsight/contract/callbacks';
import type { BookLine } from '@backsight/contract/procedures';
import { draftForAction, linkRevision } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { bookQuery } from '../../api/procedures.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';

type Action = NonNullable<Callback['actions']>[number];
type Props = { action: Action; tracedTo: string | null; system: string };

export function DraftRevision({ action, tracedTo, system }: Props): ReactNode {
  const [open, setOpen] = useOneOpen(`draft-${action.id}`);
  const book = useQuery({ ...bookQuery, enabled: open });
  if (!open) return <Button onClick={() => setOpen(true)}>Draft the revision</Button>;
  const nearest = book.data?.find(({ id }) => id === tracedTo) ?? book.data?.find((one) => one.system === system) ?? book.data?.[0];
  return (
    <>
      <ProblemNote of={book.error} />
      {book.data && nearest ? <Choose action={action} book={book.data} first={nearest.id} onBack={() => setOpen(false)} /> : null}
    </>
  );
}

const LABELS = { procedureId: 'Procedure to change', reason: 'Why the procedure is to change' };

function Choose({ action, book, first, onBack }: { action: Action; book: BookLine[]; first: string; onBack: () => void }): ReactNode {
  const navigate = useNavigate();
  const [revisionId] = useState(newId);
  const done = { refresh: ['callbacks'], said: 'The draft is linked to the corrective action.' };
  const edit = (id: string) => void navigate({ to: '/procedures/draft/$revisionId', params: { revisionId: id } });
  const begin = useSend(draftForAction, { ...done, then: () => edit(revisionId) });
  const join = useSend(linkRevision, { ...done, then: (_, sent) => edit(sent.revisionId) });
  const error = begin.error ?? join.error;
  const fields = useFields({ procedureId: first, reason: action.title }, LABELS, error, undefined, action.id);
  const draft = book.find(({ id }) => id === fields.values.procedureId)?.draft ?? null;
  const submit = () =>
    draft ? join.mutate({ id: action.id, revisionId: draft.id }) : begin.mutate({ id: action.id, revisionId, ...fields.values });
  return (
    <Stack maw="40rem">
      <Form
        error={error}
        labels={LABELS}
        draft={fields.draft}
        submit={draft ? `Join the draft of revision ${draft.number}` : 'Begin the draft'}
        busy={begin.isPending || join.isPending}
        onSubmit={submit}
        besides={
          <Button variant="default" onClick={onBack}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('procedureId')} data={book.map(({ id, title }) => ({ value: id, label: title }))} />
        {draft ? (
          <p>{`${draft.author} is drafting revision ${draft.number} of it already. This action joins that draft.`}</p>
        ) : (
          <Textarea
            {...fields.text('reason')}
            required
            autosize
            minRows={2}
            description="Every inspector reads this on the phone: no client, address or amount."
          />
        )}
      </Form>
    </Stack>
  );
}
