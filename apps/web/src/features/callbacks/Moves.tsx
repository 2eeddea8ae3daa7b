// What can be done with a callback now: acknowledge, look into, note, close, open again.
import type { ReactNode } from 'react';
import { Button, Group, NativeSelect, Stack, Textarea } from '@mantine/core';
import { isLegal, KINDS, needsConclusion, type Callback } from '@backsight/contract/callbacks';
import { acknowledge, addNote, becomeCallback, closeCallback, reopenCallback } from '../../api/callbacks.ts';
import { answerQuestion } from '../../api/callbackIntake.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Assess } from './Assess.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { WordsAct } from './WordsAct.tsx';

export function Moves({ callback }: { callback: Callback }): ReactNode {
  const { id, state, kind } = callback;
  const closable = state === 'concluded' || state === 'remedy_agreed' || (state !== 'closed' && !needsConclusion(kind));
  const opt = (words?: string) => (words ? { id, words } : { id });
  return (
    <Group gap="sm" align="start">
      {state === 'received' && !isLegal(kind) ? (
        <WordsAct
          act="Acknowledge"
          label="What was said to each other (may stay empty)"
          said="Acknowledged."
          send={(words) => acknowledge(opt(words))}
        />
      ) : null}
      <Assess callback={callback} />
      <WordsAct
        act="Add a note"
        label="Facts only: contacts, what was seen, what was sent"
        said="Noted."
        needed
        send={(words) => addNote({ id, words: words ?? '' })}
      />
      {kind === 'question' && state !== 'closed' ? (
        <WordsAct
          act="Answer the question"
          label="The answer: it goes out by mail where there is an address"
          said="Answered and closed."
          needed
          send={(words) => answerQuestion({ id, words: words ?? '' })}
        />
      ) : null}
      {closable ? (
        <WordsAct act="Close" label="What was told to whom (may stay empty)" said="Closed." send={(words) => closeCallback(opt(words))} />
      ) : null}
      {state === 'closed' ? (
        <WordsAct act="Open again" label="Why" said="Opened again." needed send={(words) => reopenCallback({ id, words: words ?? '' })} />
      ) : null}
      {kind === 'question' ? <Become id={id} /> : null}
    </Group>
  );
}

const LABELS = { kind: 'It is now', words: 'What was said' };
type BecomeKind = 'missed' | 'damage_or_injury' | 'conduct' | 'fee';

function Become({ id }: { id: string }): ReactNode {
  const [open, setOpen] = useOneOpen('become');
  const send = useSend(becomeCallback, { refresh: ['callbacks'], said: 'It is a callback now.' });
  const fields = useFields({ kind: 'missed' as BecomeKind, words: '' }, LABELS, send.error, undefined, 'become');
  const kinds = (['missed', 'damage_or_injury', 'conduct', 'fee'] as const).map((value) => ({ value, label: KINDS[value] }));
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Somebody says that more is wrong
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Make it a callback"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, ...fields.values })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('kind')} data={kinds} />
        <Textarea {...fields.text('words')} required />
      </Form>
    </Stack>
  );
}
