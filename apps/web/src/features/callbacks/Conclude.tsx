// The conclusion: what the callback is traced to, with the steps that fit best offered and never kept.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, Stack, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CAUSES, STEP_CAUSES, type Callback, type CallbackEvidence } from '@backsight/contract/callbacks';
import { conclude, evidenceQuery } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

export function Conclude({ callback }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('conclude');
  const [newest, ...older] = callback.conclusions ?? [];
  const may = callback.state !== 'closed' && (callback.state !== 'received' || callback.kind === 'near_miss');
  return (
    <Section
      title="Conclusion"
      actions={
        may && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            {newest ? 'Conclude anew' : 'Conclude'}
          </Button>
        ) : null
      }
    >
      {newest ? (
        <Concluded conclusion={newest} />
      ) : (
        <p>{callback.state === 'received' && callback.kind !== 'near_miss' ? 'Acknowledge it first.' : 'Not concluded yet.'}</p>
      )}
      {older.length > 0 ? (
        <details>
          <summary>{`Earlier conclusions (${older.length})`}</summary>
          {older.map((c) => (
            <Concluded key={c.id} conclusion={c} />
          ))}
        </details>
      ) : null}
      {open ? <ConcludeForm id={callback.id} onDone={() => setOpen(false)} /> : null}
    </Section>
  );
}

const Concluded = ({ conclusion: c }: { conclusion: NonNullable<Callback['conclusions']>[number] }): ReactNode => (
  <p>
    <strong>{CAUSES[c.cause as keyof typeof CAUSES] ?? c.cause}</strong>
    {c.stepKey ? `. Traced step: ${c.stepTitle ?? c.stepKey}, ${c.procedureTitle}, revision ${c.revisionNumber}` : ''}
    {c.words ? `. ${c.words}` : ''}
    <br />
    <small>
      {`${c.by}, `}
      <When at={c.happenedAt} />
    </small>
  </p>
);

const LABELS = { cause: 'Cause', stepKey: 'Traced step', words: 'Reasons (an opinion: only owner and lead inspector read it)' };
type Cause = keyof typeof CAUSES;
const namesStep = (cause: Cause): boolean => (STEP_CAUSES as readonly Cause[]).includes(cause);

function ConcludeForm({ id, onDone }: { id: string; onDone: () => void }): ReactNode {
  const [conclusionId] = useState(newId);
  const evidence = useQuery(evidenceQuery(id)).data;
  const send = useSend(conclude, { refresh: ['callbacks'], said: 'Concluded.', then: onDone });
  const fields = useFields({ cause: 'not_in_procedure' as Cause, stepKey: '', words: '' }, LABELS, send.error);
  const { cause, stepKey, words } = fields.values;
  const submit = () =>
    send.mutate({ id, conclusionId, cause, ...(namesStep(cause) && stepKey ? { stepKey } : {}), ...(words.trim() ? { words } : {}) });
  return (
    <Stack maw="44rem">
      <Form
        error={send.error}
        labels={LABELS}
        submit="Conclude"
        busy={send.isPending}
        onSubmit={submit}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('cause')} data={options(CAUSES)} />
        {namesStep(cause) ? (
          <>
            <Suggestions likely={evidence?.likely ?? []} onPick={(key) => fields.set('stepKey', key)} />
            <NativeSelect
              {...fields.text('stepKey')}
              data={[
                { value: '', label: cause === 'not_in_procedure' ? 'None named (or the nearest step)' : 'Choose a step' },
                ...stepOptions(evidence),
              ]}
            />
          </>
        ) : null}
        <Textarea {...fields.text('words')} autosize minRows={3} />
      </Form>
    </Stack>
  );
}

const stepOptions = (evidence?: CallbackEvidence) => [
  ...new Map((evidence?.steps ?? []).map((s) => [s.stepKey, { value: s.stepKey, label: `${s.procedureTitle}: ${s.title}` }])).values(),
];

function Suggestions({ likely, onPick }: { likely: CallbackEvidence['likely']; onPick: (stepKey: string) => void }): ReactNode {
  if (likely.length === 0) return null;
  return (
    <div>
      <p>Steps that may fit (worked out now, not kept):</p>
      <ul>
        {likely.map((s) => (
          <li key={s.stepKey}>
            <Button variant="subtle" size="compact-sm" onClick={() => onPick(s.stepKey)}>
              {s.title}
            </Button>
            {` ${s.reasons.join(', ')}`}
          </li>
        ))}
      </ul>
    </div>
  );
}
