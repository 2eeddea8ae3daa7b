// Logs a call in two keys: Enter opens it with the focus on how it went, then R, L or N. More can be said before that.
import { useState, type KeyboardEvent, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import { CHANNELS, OUTCOMES, type Channel, type ContactOutcome } from '@backsight/contract/mail/contacts';
import { newId } from '../../api/ids.ts';
import { logContact } from '../../api/contacts.ts';
import { ProblemNote } from '../ProblemNote.tsx';
import { useOpener } from '../useOpener.ts';
import { useSend } from '../useSend.ts';

type Person = { partyId: string; name: string };
type Props = { jobId: string; callbackId?: string; people: readonly Person[]; compact?: boolean };

const KEYS: Record<string, ContactOutcome> = { r: 'reached', l: 'left_word', n: 'no_answer' };
const LETTERS: Record<ContactOutcome, string> = { reached: 'R', left_word: 'L', no_answer: 'N' };

export function LogContact(props: Props): ReactNode {
  const [open, setOpen] = useState(false);
  const { people, compact = false } = props;
  const opener = useOpener(open);
  if (!open)
    return (
      <Button
        ref={opener}
        size={compact ? 'compact-sm' : 'compact-md'}
        variant="default"
        aria-label={compact ? `Log a call with ${people[0]?.name ?? ''}` : undefined}
        onClick={() => setOpen(true)}
        disabled={people.length === 0}
      >
        Log a call
      </Button>
    );
  return <Logging {...props} onDone={() => setOpen(false)} />;
}

function Logging({ jobId, callbackId, people, onDone }: Props & { onDone: () => void }): ReactNode {
  const [{ id, key }] = useState(() => ({ id: newId(), key: newId() }));
  const [form, setForm] = useState({ partyId: people[0]!.partyId, channel: 'call' as Channel, words: '' });
  const send = useSend(logContact, { refresh: ['contacts'], said: 'The contact is logged.', then: onDone });
  const log = (outcome: ContactOutcome) => {
    const { words, ...rest } = form;
    if (!send.isPending)
      send.mutate({ id, key, jobId, callbackId: callbackId ?? null, ...rest, outcome, words: words.trim() || null, happenedAt: null });
  };
  const onKey = (event: KeyboardEvent) => {
    const outcome = KEYS[event.key.toLowerCase()];
    if (!outcome || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    log(outcome);
  };
  return (
    <div role="group" aria-label="Log a call">
      <ProblemNote of={send.error} />
      <Group align="flex-end" gap="sm">
        {people.length > 1 ? (
          <NativeSelect
            label="With"
            value={form.partyId}
            data={people.map(({ partyId, name }) => ({ value: partyId, label: name }))}
            onChange={(event) => setForm({ ...form, partyId: event.currentTarget.value })}
          />
        ) : null}
        <NativeSelect
          label="How"
          value={form.channel}
          data={Object.entries(CHANNELS).map(([value, label]) => ({ value, label }))}
          onChange={(event) => setForm({ ...form, channel: event.currentTarget.value as Channel })}
        />
        <TextInput
          label="What was said, in one line"
          maxLength={300}
          value={form.words}
          onChange={(event) => setForm({ ...form, words: event.currentTarget.value })}
        />
        <Group gap="xs" onKeyDown={onKey}>
          {(Object.keys(OUTCOMES) as ContactOutcome[]).map((outcome, at) => (
            <Button
              key={outcome}
              autoFocus={at === 0}
              loading={send.isPending}
              aria-keyshortcuts={LETTERS[outcome]}
              onClick={() => log(outcome)}
            >
              {`${OUTCOMES[outcome]} (${LETTERS[outcome]})`}
            </Button>
          ))}
        </Group>
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </div>
  );
}
