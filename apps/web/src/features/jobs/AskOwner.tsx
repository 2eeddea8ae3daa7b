// Marks a house or a person on a job: the owner is asked before anybody books again.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { markHouse, markParty } from '../../api/jobs.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useOpener } from '../../ui/useOpener.ts';
import { useChange } from './useChange.ts';

const SEND = { house: markHouse, person: markParty };

/** `id` is the property's or the person's; `name` is said in the buttons. */
export function AskOwner({ of, id, name }: { of: keyof typeof SEND; id: string; name: string }): ReactNode {
  const [open, setOpen] = useState(false);
  const {
    values: { reason },
    setValues,
    draft,
  } = useDraft({ reason: '' }, `ask me ${id}`);
  const opener = useOpener(open);
  const mark = useChange(SEND[of], `Noted for ${name}.`, () => setOpen(false));
  if (!open)
    return (
      <Button
        ref={opener}
        size="compact-md"
        variant="default"
        aria-label={`Ask me before booking for ${name}`}
        onClick={() => setOpen(true)}
      >
        Ask me before booking{of === 'house' ? ' for this house' : ''}
      </Button>
    );
  return (
    <>
      <Kept draft={draft} />
      <ProblemNote of={mark.error} />
      <Group gap="sm" align="flex-end">
        <TextInput
          label="Reason, for the owner"
          value={reason}
          onChange={(event) => setValues({ reason: event.currentTarget.value })}
          maxLength={200}
        />
        <Button
          loading={mark.isPending}
          disabled={reason.trim() === ''}
          onClick={() => whileSending(draft, () => mark.mutate({ id, askOwner: reason }))}
        >
          Mark {name}
        </Button>
        <Button variant="default" loading={mark.isPending} onClick={() => mark.mutate({ id, askOwner: null })}>
          Take a mark away
        </Button>
        <Button variant="default" onClick={() => setOpen(false)}>
          Leave it
        </Button>
      </Group>
    </>
  );
}
