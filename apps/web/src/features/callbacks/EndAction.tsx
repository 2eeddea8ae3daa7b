// Says that a corrective action is done, with what was done by whom and when, or why it is dropped.
import type { ReactNode } from 'react';
import { Button, Checkbox, Group, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ActionPage as Action } from '@backsight/contract/callbacks/change';
import { finishAction } from '../../api/correctiveActions.ts';
import { peopleQuery } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  outcome: 'What became of it',
  what: 'What was done, or why nothing more is done',
  doneOn: 'Done on',
  attendees: 'Who attended',
  kit: 'Which kit',
};

export function EndAction({ action: a, onDone }: { action: Action; onDone: () => void }): ReactNode {
  const send = useSend(finishAction, { refresh: ['callbacks'], said: 'Noted.', then: onDone });
  const people = useQuery({ ...peopleQuery, enabled: a.kind === 'training' }).data ?? [];
  const fields = useFields(
    { outcome: 'done' as 'done' | 'dropped', what: '', doneOn: '', attendees: [] as string[], kit: '' },
    LABELS,
    send.error,
  );
  const { doneOn, ...values } = fields.values;
  const done = values.outcome === 'done';
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit={done ? 'Done' : 'Drop it'}
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: a.id, ...values, doneOn: doneOn || null })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect
          {...fields.text('outcome')}
          data={[
            { value: 'done', label: 'done' },
            { value: 'dropped', label: 'dropped: nothing more is done' },
          ]}
        />
        <Textarea
          {...fields.text('what')}
          autosize
          minRows={2}
          description={
            a.kind === 'revision' && done
              ? 'A revision is done by itself when it is in force. After the step failed again, say here why the change stands as it is.'
              : 'No client, address or amount.'
          }
        />
        {done && a.kind !== 'revision' ? (
          <TextInput {...fields.text('doneOn')} type="date" description="Empty: today. The change counts from then on." />
        ) : null}
        {done && a.kind === 'training' ? (
          <Checkbox.Group {...fields.value('attendees')} onChange={(ids) => fields.set('attendees', ids)}>
            <Group mt="xs">
              {people
                .filter((p) => p.endedOn === null)
                .map((p) => (
                  <Checkbox key={p.id} value={p.id} label={p.name} />
                ))}
            </Group>
          </Checkbox.Group>
        ) : null}
        {done && a.kind === 'kit' ? <TextInput {...fields.text('kit')} description="What was bought, replaced or calibrated." /> : null}
      </Form>
    </Stack>
  );
}
