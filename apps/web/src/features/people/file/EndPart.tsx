// Sets the last day of something on file that ends early, with the form in the table's own row.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { Form } from '../../../ui/Form.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Leave } from './AddPart.tsx';

type Props = {
  personId: string;
  id: string;
  name: string;
  untilDay: string | null;
  send: (sent: { id: string; untilDay: string }) => Promise<unknown>;
};
const LABELS = { untilDay: 'Last day' };

export function EndPart(props: Props): ReactNode {
  const [open, setOpen] = useState(false);
  if (open) return <End {...props} done={() => setOpen(false)} />;
  return (
    <Button size="compact-sm" variant="default" aria-label={`Change the last day of ${props.name}`} onClick={() => setOpen(true)}>
      Change the last day
    </Button>
  );
}

function End({ personId, id, untilDay, send, done }: Props & { done: () => void }): ReactNode {
  const scope = `end-${id}`;
  const end = useSend(send, {
    refresh: ['people', personId, 'file'],
    said: 'The last day is changed.',
    then: done,
    undo: () => (untilDay ? () => send({ id, untilDay }) : null),
  });
  const fields = useFields({ untilDay: untilDay ?? '' }, LABELS, end.error, scope);
  return (
    <Form
      error={end.error}
      labels={LABELS}
      scope={scope}
      submit="Save"
      busy={end.isPending}
      onSubmit={() => end.mutate({ id, untilDay: fields.values.untilDay })}
      besides={<Leave done={done} />}
    >
      <TextInput
        {...fields.text('untilDay')}
        type="date"
        required
        description="From the day after, nobody is offered on the strength of it."
      />
    </Form>
  );
}
