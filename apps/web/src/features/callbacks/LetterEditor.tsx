// The words of a letter while they are edited, and how they will look.
import type { ReactNode } from 'react';
import { Button, Group, Textarea, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import type { LetterDraft } from '@backsight/contract/callbacks/after';
import { lookAtLetter, sendLetter, type LetterName } from '../../api/callbacksAfter.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { subject: 'Subject', body: 'Letter', way: 'How it leaves' };
/** Letters to clients are to be read with about eight years of school. */
const PLAIN_GRADE = 8;

type Props = { callbackId: string; letter: LetterName; draft: LetterDraft; onDone: () => void };

export function LetterEditor({ callbackId, letter, draft, onDone }: Props): ReactNode {
  const said = draft.way === 'mail' ? 'The letter goes out by mail.' : 'The letter is written: open it as a PDF.';
  const send = useSend(sendLetter, { refresh: ['callbacks'], said, then: onDone });
  const look = useMutation({ mutationFn: lookAtLetter });
  const fields = useFields({ subject: draft.subject, body: draft.body, way: draft.way }, LABELS, send.error, 'letter', letter);
  const edited = { id: callbackId, letter, ...fields.values };
  return (
    <Form
      error={send.error}
      labels={LABELS}
      scope="letter"
      draft={fields.draft}
      submit={draft.way === 'mail' ? 'Send the letter' : 'Write it for paper'}
      busy={send.isPending}
      onSubmit={() => send.mutate(edited)}
      besides={
        <>
          <Button variant="default" loading={look.isPending} onClick={() => look.mutate(edited)}>
            Look it over
          </Button>
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        </>
      }
    >
      <TextInput {...fields.text('subject')} required />
      <Textarea {...fields.text('body')} required autosize minRows={10} mt="sm" />
      <ProblemNote of={look.error} />
      {look.data ? <Looked {...look.data} subject={fields.values.subject} body={fields.values.body} /> : null}
    </Form>
  );
}

type LookedProps = { grade: number; names: string[]; problem: string | null; subject: string; body: string };

function Looked({ grade, names, problem, subject, body }: LookedProps): ReactNode {
  return (
    <div role="status" aria-label="How the letter looks" style={{ marginTop: 'var(--bs-space-6)' }}>
      <Group gap="xs">
        <span>
          {grade > PLAIN_GRADE
            ? `Hard to read: it asks for ${Math.round(grade)} years of school. Shorter sentences help.`
            : `Plain: it asks for about ${Math.max(Math.round(grade), 1)} years of school.`}
        </span>
      </Group>
      {names.length > 0 ? <p>{`It names ${names.join(', ')}. Conclusions and people stay out of letters unless you choose so.`}</p> : null}
      {problem ? <p style={{ fontWeight: 600 }}>{`It cannot leave yet. ${problem}`}</p> : null}
      <article style={{ border: '1px solid var(--bs-line)', padding: 'var(--bs-space-6)', marginTop: 'var(--bs-space-4)' }}>
        <strong>{subject}</strong>
        {body.split(/\n{2,}/).map((paragraph, n) => (
          <p key={n} style={{ whiteSpace: 'pre-wrap', overflowWrap: 'anywhere' }}>
            {paragraph}
          </p>
        ))}
      </article>
    </div>
  );
}
