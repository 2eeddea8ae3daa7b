// An owner decides an appeal: the decision stands, or is changed; the words stand in the letter of the result.
import type { ReactNode } from 'react';
import { Button, NativeSelect, Stack, Textarea, TextInput } from '@mantine/core';
import { APPEAL_RESULTS } from '@backsight/contract/callbacks/after';
import { decideAppeal } from '../../api/callbacksAfter.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

const LABELS = {
  result: 'Having looked again',
  words: 'Why, as it stands in the letter',
  reviewer: 'Who from outside looked at it, or that nobody else could',
};

export function DecideAppeal({ id, freeOwners }: { id: string; freeOwners: readonly string[] }): ReactNode {
  const { name } = useMe();
  const [open, setOpen] = useOneOpen('appeal');
  const send = useSend(decideAppeal, { refresh: ['callbacks'], said: 'The appeal is decided.', then: () => setOpen(false) });
  const fields = useFields(
    { result: 'upheld' as keyof typeof APPEAL_RESULTS, words: '', reviewer: '' },
    LABELS,
    send.error,
    undefined,
    'appeal',
  );
  const free = freeOwners.includes(name);
  if (!free && freeOwners.length > 0)
    return <p>{`You concluded this or were on the job: ${freeOwners.join(' or ')} decides the appeal.`}</p>;
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Decide the appeal
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Decide the appeal"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, ...fields.values })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('result')} data={options(APPEAL_RESULTS)} />
        <Textarea {...fields.text('words')} required autosize minRows={3} mt="sm" />
        {free ? null : (
          <>
            <p>You concluded this or were on the job, and the firm has no other owner who did neither. The letter says so.</p>
            <TextInput {...fields.text('reviewer')} required />
          </>
        )}
      </Form>
    </Stack>
  );
}
