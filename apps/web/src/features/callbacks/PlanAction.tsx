// Who sees to a corrective action, until when, and when it is reviewed by whom.
import type { ReactNode } from 'react';
import { Button, NativeSelect, Stack, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ActionPage as Action } from '@backsight/contract/callbacks/change';
import { planAction } from '../../api/correctiveActions.ts';
import { peopleQuery } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { ownerId: 'Who sees to it', dueOn: 'Due on', reviewOn: 'Review on', reviewerId: 'Who reviews' };

export function PlanAction({ action: a, onDone }: { action: Action; onDone: () => void }): ReactNode {
  const people = (useQuery(peopleQuery).data ?? []).filter((p) => p.endedOn === null);
  const send = useSend(planAction, { refresh: ['callbacks'], said: 'Planned.', then: onDone });
  const fields = useFields(
    { ownerId: a.ownerId, dueOn: a.dueOn, reviewOn: a.reviewOn ?? '', reviewerId: a.reviewerId ?? '' },
    LABELS,
    send.error,
  );
  const { reviewOn, reviewerId, ...values } = fields.values;
  const judges = people.filter(({ roles }) => roles.includes('owner') || roles.includes('lead_inspector'));
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Keep the plan"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: a.id, ...values, reviewOn: reviewOn || null, reviewerId: reviewerId || null })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('ownerId')} data={people.map((p) => ({ value: p.id, label: p.name }))} />
        {a.state === 'open' ? <TextInput {...fields.text('dueOn')} type="date" required /> : null}
        <TextInput {...fields.text('reviewOn')} type="date" description="Months after the change: callbacks come late." />
        <NativeSelect
          {...fields.text('reviewerId')}
          data={[{ value: '', label: 'nobody yet' }, ...judges.map((p) => ({ value: p.id, label: p.name }))]}
        />
      </Form>
    </Stack>
  );
}
