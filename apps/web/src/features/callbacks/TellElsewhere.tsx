// Whether the client of another job is told of the same gap.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, Textarea, TextInput } from '@mantine/core';
import type { ElsewhereJob } from '@backsight/contract/callbacks/change';
import { tellElsewhere } from '../../api/correctiveActions.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  decision: 'The client of this job',
  danger: 'People may be in danger: tell them now, without waiting for anybody',
  insurerWord: "Insurer's word",
  attorneyWord: "Attorney's word",
  reason: 'Why',
  words: 'What the letter says',
};
type Props = { actionId: string; job: ElsewhereJob; onDone: () => void };

export function TellElsewhere({ actionId, job, onDone }: Props): ReactNode {
  const [decisionId] = useState(newId);
  const send = useSend(tellElsewhere, { refresh: ['callbacks', 'action', actionId, 'elsewhere'], said: 'Decided.', then: onDone });
  const fields = useFields(
    { decision: 'tell' as 'tell' | 'not_tell', danger: false, insurerWord: '', attorneyWord: '', reason: '', words: '' },
    LABELS,
    send.error,
    undefined,
    job.jobId,
  );
  const { decision, danger } = fields.values;
  const telling = decision === 'tell';
  return (
    <Form
      error={send.error}
      labels={LABELS}
      draft={fields.draft}
      submit={telling ? 'Tell the client' : 'Do not tell'}
      busy={send.isPending}
      onSubmit={() =>
        send.mutate({
          id: actionId,
          jobId: job.jobId,
          decisionId,
          ...fields.values,
          danger: telling && danger,
          words: telling ? fields.values.words : '',
        })
      }
      besides={
        <Button variant="default" onClick={onDone}>
          Go back
        </Button>
      }
    >
      <NativeSelect
        {...fields.text('decision')}
        data={[
          { value: 'tell', label: 'is told' },
          { value: 'not_tell', label: 'is not told' },
        ]}
      />
      {telling ? <Checkbox {...fields.check('danger')} mt="sm" /> : null}
      {telling && danger ? null : (
        <>
          <TextInput {...fields.text('insurerWord')} required description="Who said it, when, and where it is on file." />
          <TextInput {...fields.text('attorneyWord')} description="Needed where a legal paper is among the callbacks." />
        </>
      )}
      <Textarea {...fields.text('reason')} required autosize />
      {telling ? (
        <Textarea
          {...fields.text('words')}
          required
          autosize
          minRows={3}
          description="What may be so at their house and what to do. Nothing of other clients; the letter says that it admits nothing."
        />
      ) : null}
    </Form>
  );
}
