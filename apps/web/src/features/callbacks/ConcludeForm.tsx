// Concluding: the cause with what it means, the traced step with how two looks at it came out before, and what contributed.
import { RECORDS_LOOKED_AT } from '@backsight/domain/sitework/partner';
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, Stack, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CAUSES, CIRCUMSTANCES, ERROR_KINDS, GUIDANCE, STEP_CAUSES, type CallbackEvidence } from '@backsight/contract/callbacks';
import { conclude, evidenceQuery } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { backgroundQuery, opinionsQuery } from '../../api/opinions.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { LikelySteps } from './LikelySteps.tsx';
import { options } from './words.ts';

const LABELS = {
  cause: 'Cause',
  stepKey: 'Traced step',
  errorKind: 'Kind of error at that step',
  circumstances: 'What contributed',
  words: 'Reasons (an opinion: only owner and lead inspector read it)',
};
type Cause = keyof typeof CAUSES;
type Circumstance = keyof typeof CIRCUMSTANCES;
const namesStep = (cause: Cause): boolean => (STEP_CAUSES as readonly Cause[]).includes(cause);
const EMPTY = { cause: 'not_in_procedure' as Cause, stepKey: '', errorKind: '', circumstances: [] as Circumstance[], words: '' };

export function ConcludeForm({ id, onDone }: { id: string; onDone: () => void }): ReactNode {
  const [conclusionId] = useState(newId);
  const evidence = useQuery(evidenceQuery(id)).data;
  const kinds = useQuery(opinionsQuery(id)).data?.errorKinds ?? false;
  const send = useSend(conclude, { refresh: ['callbacks'], said: 'Concluded.', then: onDone });
  const fields = useFields(EMPTY, LABELS, send.error);
  const { cause, stepKey, errorKind, circumstances, words } = fields.values;
  const submit = () =>
    send.mutate({
      ...{ id, conclusionId, cause },
      ...(namesStep(cause) && stepKey ? { stepKey } : {}),
      ...(errorKind ? { errorKind: errorKind as keyof typeof ERROR_KINDS } : {}),
      ...(circumstances.length > 0 ? { circumstances } : {}),
      ...(words.trim() ? { words } : {}),
    });
  return (
    <Stack maw="44rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Conclude"
        busy={send.isPending}
        onSubmit={submit}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect
          {...fields.text('cause')}
          data={options(CAUSES)}
          description={`${GUIDANCE[cause].means} Example: ${GUIDANCE[cause].when}`}
        />
        {namesStep(cause) ? (
          <>
            <LikelySteps id={id} onPick={(key) => fields.set('stepKey', key)} />
            <NativeSelect
              {...fields.text('stepKey')}
              data={[
                { value: '', label: cause === 'not_in_procedure' ? 'None named (or the nearest step)' : 'Choose a step' },
                ...stepOptions(evidence),
              ]}
            />
            <TwoLooks id={id} stepKey={stepKey} />
          </>
        ) : null}
        {kinds ? (
          <NativeSelect
            {...fields.text('errorKind')}
            mt="sm"
            data={[{ value: '', label: 'None named' }, ...options(ERROR_KINDS)]}
            description="It belongs to the step and says nothing about a person."
          />
        ) : null}
        <Checkbox.Group {...fields.value('circumstances')} mt="sm" value={circumstances}>
          {options(CIRCUMSTANCES).map(({ value, label }) => (
            <Checkbox key={value} value={value} label={label} mt="xs" />
          ))}
        </Checkbox.Group>
        <Textarea {...fields.text('words')} autosize minRows={3} mt="sm" />
      </Form>
    </Stack>
  );
}

const stepOptions = (evidence?: CallbackEvidence) => [
  ...new Map((evidence?.steps ?? []).map((s) => [s.stepKey, { value: s.stepKey, label: `${s.procedureTitle}: ${s.title}` }])).values(),
];

/** How often two independent looks at the step differed, from the newest sealed records. */
function TwoLooks({ id, stepKey }: { id: string; stepKey: string }): ReactNode {
  const found = useQuery(backgroundQuery(id)).data?.twoLooks.find((row) => row.stepKey === stepKey);
  return found ? (
    <p>{`Two looked at this step on their own ${found.looks} ${found.looks === 1 ? 'time' : 'times'} in the newest ${RECORDS_LOOKED_AT} records, and differed ${found.differed === 0 ? 'never' : found.differed === 1 ? 'once' : `${found.differed} times`}.`}</p>
  ) : null;
}
