// Deciding what is changed because of a callback, or of several at once.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { ACTION_KINDS } from '@backsight/contract/callbacks';
import { createAction } from '../../api/callbacks.ts';
import { concludedQuery } from '../../api/correctiveActions.ts';
import { newId } from '../../api/ids.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  kind: 'What is changed',
  title: 'In one line',
  why: 'Why',
  ownerId: 'Who sees to it',
  dueOn: 'Due on',
  reviewOn: 'Review on',
  reviewerId: 'Who reviews',
  callbackIds: 'It answers these callbacks too',
};
const NO_CASE = 'No client, address or amount: many people read it.';

export function NewAction({ callbackId, onDone }: { callbackId: string; onDone: () => void }): ReactNode {
  const me = useMe();
  const [id] = useState(newId);
  const people = (useQuery(peopleQuery).data ?? []).filter((p) => p.endedOn === null);
  const concluded = useQuery(concludedQuery).data ?? [];
  const send = useSend(createAction, { refresh: ['callbacks'], said: 'Decided.', then: onDone });
  const fields = useFields(
    {
      ...{ kind: 'revision' as keyof typeof ACTION_KINDS, title: '', why: '', ownerId: me.id, dueOn: '' },
      ...{ reviewOn: '', reviewerId: me.id, callbackIds: [] as string[] },
    },
    LABELS,
    send.error,
  );
  const { dueOn, reviewOn, reviewerId, callbackIds, ...values } = fields.values;
  const nothing = values.kind === 'none';
  const step = concluded.find((c) => c.id === callbackId)?.stepKey ?? null;
  const others = concluded.filter((c) => c.id !== callbackId && step !== null && c.stepKey === step);
  const submit = () =>
    send.mutate({
      ...{ id, ...values, callbackIds: [callbackId, ...callbackIds], dueOn: nothing || dueOn === '' ? null : dueOn },
      ...{ reviewOn: reviewOn || null, reviewerId: reviewOn ? reviewerId : null },
    });
  const judges = people.filter(({ roles }) => roles.includes('owner') || roles.includes('lead_inspector'));
  const names = (of: typeof people) => of.map((p) => ({ value: p.id, label: p.name }));
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Decide"
        busy={send.isPending}
        onSubmit={submit}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('kind')} data={Object.entries(ACTION_KINDS).map(([value, label]) => ({ value, label }))} />
        <TextInput {...fields.text('title')} required description={NO_CASE} />
        <Textarea {...fields.text('why')} required description={NO_CASE} />
        {others.length > 0 ? (
          <Checkbox.Group {...fields.value('callbackIds')} onChange={(ids) => fields.set('callbackIds', ids)}>
            {others.map((c) => (
              <Checkbox
                key={c.id}
                value={c.id}
                mt="xs"
                label={`Callback ${c.number}, traced to the same step${c.actions > 0 ? ' (has an action)' : ''}`}
              />
            ))}
          </Checkbox.Group>
        ) : null}
        <NativeSelect {...fields.text('ownerId')} data={names(people)} />
        {nothing ? null : <TextInput {...fields.text('dueOn')} type="date" required />}
        <TextInput
          {...fields.text('reviewOn')}
          type="date"
          description="Months after the change: callbacks come late. May be planned later."
        />
        {reviewOn ? <NativeSelect {...fields.text('reviewerId')} data={names(judges)} /> : null}
      </Form>
    </Stack>
  );
}
