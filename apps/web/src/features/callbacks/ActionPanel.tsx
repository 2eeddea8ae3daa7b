// The corrective actions of a callback, and deciding on a new one.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { ACTION_KINDS, type Callback } from '@backsight/contract/callbacks';
import { createAction } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { DraftRevision } from './DraftRevision.tsx';
import { useOneOpen } from './oneOpen.tsx';

export function ActionPanel({ callback: c }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('action');
  const traced = c.conclusions?.[0];
  return (
    <Section
      title="Corrective action"
      actions={
        traced && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            Decide on one
          </Button>
        ) : null
      }
    >
      {c.actions!.length === 0 ? <p>{traced ? 'None yet.' : 'Conclude first: what is changed follows from the cause.'}</p> : null}
      {c.actions!.map((a) => (
        <div key={a.id} style={{ marginBottom: '1rem' }}>
          <p>
            <TextLink to="/corrective-actions">{`${a.number}: ${a.title}`}</TextLink>
            {` (${ACTION_KINDS[a.kind]}, ${a.state}), due `}
            <Day day={a.dueOn} />
          </p>
          {a.revisionId ? (
            <p>
              <TextLink
                to="/procedures/revision/$revisionId"
                params={{ revisionId: a.revisionId }}
              >{`Revision ${a.revisionNumber}`}</TextLink>
              {`, ${a.revisionState}${a.state === 'open' ? ': this action is done when it is in force' : ''}`}
            </p>
          ) : null}
          {a.kind === 'revision' && a.state === 'open' && (a.revisionId === null || a.revisionState === 'withdrawn') ? (
            <DraftRevision action={a} tracedTo={traced?.procedureId ?? null} system={c.system} />
          ) : null}
        </div>
      ))}
      {open ? <NewAction callbackId={c.id} onDone={() => setOpen(false)} /> : null}
    </Section>
  );
}

const LABELS = { kind: 'What is changed', title: 'In one line', why: 'Why', ownerId: 'Who sees to it', dueOn: 'Due on' };

function NewAction({ callbackId, onDone }: { callbackId: string; onDone: () => void }): ReactNode {
  const me = useMe();
  const [id] = useState(newId);
  const people = useQuery(peopleQuery).data ?? [];
  const send = useSend(createAction, { refresh: ['callbacks'], said: 'Decided.', then: onDone });
  const fields = useFields(
    { kind: 'revision' as keyof typeof ACTION_KINDS, title: '', why: '', ownerId: me.id, dueOn: '' },
    LABELS,
    send.error,
  );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        submit="Decide"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, ...fields.values, callbackIds: [callbackId] })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('kind')} data={Object.entries(ACTION_KINDS).map(([value, label]) => ({ value, label }))} />
        <TextInput {...fields.text('title')} required />
        <Textarea {...fields.text('why')} required />
        <NativeSelect
          {...fields.text('ownerId')}
          data={people.filter((p) => p.endedOn === null).map((p) => ({ value: p.id, label: p.name }))}
        />
        <TextInput {...fields.text('dueOn')} type="date" required />
      </Form>
    </Stack>
  );
}
