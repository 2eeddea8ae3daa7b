// What a look at the record of another job found.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, Textarea } from '@mantine/core';
import { VERDICTS, type GAPS } from '@backsight/contract/callbacks/change';
import { lookElsewhere } from '../../api/correctiveActions.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { verdict: 'It shows', words: 'Why' };
type Props = { actionId: string; jobId: string; gap: keyof typeof GAPS; onDone: () => void };

export function LookElsewhere({ actionId, jobId, gap, onDone }: Props): ReactNode {
  const [lookId] = useState(newId);
  const send = useSend(lookElsewhere, { refresh: ['callbacks', 'action', actionId, 'elsewhere'], said: 'Noted.', then: onDone });
  const fields = useFields({ verdict: 'same_gap' as keyof typeof VERDICTS, words: '' }, LABELS, send.error, undefined, jobId);
  return (
    <Form
      error={send.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Keep"
      busy={send.isPending}
      onSubmit={() => send.mutate({ id: actionId, jobId, lookId, gap, ...fields.values })}
      besides={
        <Button variant="default" onClick={onDone}>
          Go back
        </Button>
      }
    >
      <NativeSelect {...fields.text('verdict')} data={Object.entries(VERDICTS).map(([value, label]) => ({ value, label }))} />
      <Textarea {...fields.text('words')} required autosize />
    </Form>
  );
}
