// The assessment: how grave it is for whoever brought it, whether something is needed at once, and who looks into it.
import type { ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, Stack, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { SEVERITIES, type AfterCallback } from '@backsight/contract/callbacks/after';
import { afterQuery, assess } from '../../api/callbacksAfter.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

const LABELS = {
  severity: 'How grave it is for them',
  atOnce: 'Something is needed at once',
  assigneeId: 'Who looks into it',
  words: 'What was seen so far, and what is needed at once (may stay empty)',
};

export function Assess({ callback }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('assess');
  const after = useQuery(afterQuery(callback.id)).data;
  if (callback.state === 'closed' || callback.kind === 'question' || callback.kind === 'near_miss') return null;
  if (!open || !after)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        {after?.assessment ? 'Assess it anew' : 'Look into it'}
      </Button>
    );
  return <AssessForm id={callback.id} after={after} onDone={() => setOpen(false)} />;
}

function AssessForm({ id, after, onDone }: { id: string; after: AfterCallback; onDone: () => void }): ReactNode {
  const send = useSend(assess, { refresh: ['callbacks'], said: 'It is being looked into.', then: onDone });
  const { assessment, people } = after;
  const first = {
    severity: assessment?.severity ?? 'loss',
    atOnce: assessment?.atOnce ?? false,
    assigneeId: assessment?.assigneeId ?? '',
    words: '',
  };
  const fields = useFields(first as Parameters<typeof useFields<typeof first>>[0], LABELS, send.error);
  const { words, ...values } = fields.values;
  return (
    <Stack w="100%" maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Look into it"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, ...values, ...(words.trim() ? { words } : {}) })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('severity')} data={options(SEVERITIES)} />
        <Checkbox {...fields.check('atOnce')} mt="sm" />
        <NativeSelect
          {...fields.text('assigneeId')}
          mt="sm"
          data={[{ value: '', label: 'Choose somebody' }, ...people.map(({ id: value, name }) => ({ value, label: name }))]}
        />
        <Textarea {...fields.text('words')} autosize minRows={2} mt="sm" />
      </Form>
    </Stack>
  );
}

/** Who looks into it, in one line. */
export function Assessed({ id }: { id: string }): ReactNode {
  const found = useQuery(afterQuery(id)).data?.assessment;
  if (!found) return null;
  return (
    <p>
      <strong>{found.assignee}</strong>
      {` looks into it. Assessed as ${SEVERITIES[found.severity]}${found.atOnce ? '; something was needed at once' : ''} (${found.by}, `}
      <When at={found.at} />
      {').'}
    </p>
  );
}
