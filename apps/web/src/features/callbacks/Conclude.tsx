// The conclusion: what the callback is traced to, who stands behind it, and the earlier ones.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CAUSES, CIRCUMSTANCES, ERROR_KINDS, type Callback } from '@backsight/contract/callbacks';
import { newId } from '../../api/ids.ts';
import { confirmConclusion, opinionsQuery } from '../../api/opinions.ts';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { ConcludeForm } from './ConcludeForm.tsx';
import { useOneOpen } from './oneOpen.tsx';

type Conclusion = NonNullable<Callback['conclusions']>[number];

export function Conclude({ callback }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('conclude');
  const [newest, ...older] = callback.conclusions ?? [];
  const may = callback.state !== 'closed' && (callback.state !== 'received' || callback.kind === 'near_miss');
  return (
    <Section
      title="Conclusion"
      brief={
        newest ? null : callback.state === 'received' && callback.kind !== 'near_miss' ? 'Acknowledge it first.' : 'Not concluded yet.'
      }
      actions={
        may && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            {newest ? 'Conclude anew' : 'Conclude'}
          </Button>
        ) : null
      }
    >
      {newest ? (
        <>
          <Concluded conclusion={newest} />
          {newest.needsConfirmation && !newest.confirmedAt ? <Confirm id={callback.id} conclusionId={newest.id} /> : null}
        </>
      ) : null}
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

const Concluded = ({ conclusion: c }: { conclusion: Conclusion }): ReactNode => (
  <p>
    <strong>{CAUSES[c.cause as keyof typeof CAUSES] ?? c.cause}</strong>
    {c.stepKey ? (
      <>
        {`. Traced step: ${c.stepTitle ?? c.stepKey}, ${c.procedureTitle}, `}
        {c.revisionId ? (
          <TextLink to="/procedures/revision/$revisionId" params={{ revisionId: c.revisionId }}>{`revision ${c.revisionNumber}`}</TextLink>
        ) : null}
        {' ('}
        <TextLink to="/callbacks" search={{ which: 'all', step: c.stepKey }}>
          callbacks of this step
        </TextLink>
        )
      </>
    ) : null}
    {c.errorKind ? `. At the step: ${ERROR_KINDS[c.errorKind]}` : ''}
    {c.circumstances.length > 0 ? `. What contributed: ${c.circumstances.map((one) => CIRCUMSTANCES[one]).join(', ')}` : ''}
    {c.words ? `. ${c.words}` : ''}
    <br />
    <small>
      {`${c.by}, `}
      <When at={c.happenedAt} />
      {c.needsConfirmation ? c.confirmedAt ? <Behind conclusion={c} at={c.confirmedAt} /> : ', who was on this job' : ''}
    </small>
  </p>
);

const Behind = ({ conclusion: c, at }: { conclusion: Conclusion; at: string }): ReactNode => (
  <>
    {c.confirmedWay === 'outside'
      ? `, who was on this job; nobody else is in the firm, ${c.confirmedBy} recorded, `
      : `, who was on this job; confirmed by ${c.confirmedBy}, `}
    <When at={at} />
    {c.confirmedWords ? `: ${c.confirmedWords}` : ''}
  </>
);

/** What somebody who was not on the job can do about a conclusion that waits. */
function Confirm({ id, conclusionId }: { id: string; conclusionId: string }): ReactNode {
  const [open, setOpen] = useOneOpen('confirm');
  const confirm = useQuery(opinionsQuery(id)).data?.confirm;
  const way = confirm?.here ? 'person' : confirm?.outside ? 'outside' : null;
  return (
    <>
      <p>
        <strong>Waits for somebody who was not on this job.</strong> Until it is confirmed, nothing is decided, offered or closed on it.
      </p>
      {way && !open ? (
        <Button onClick={() => setOpen(true)}>{way === 'person' ? 'Confirm it' : 'Nobody else is in the firm'}</Button>
      ) : null}
      {way && open ? <ConfirmForm id={id} conclusionId={conclusionId} way={way} onDone={() => setOpen(false)} /> : null}
    </>
  );
}

const LABELS = {
  person: { words: 'What you looked at (may stay empty)' },
  outside: { words: 'Who outside the firm looked at it, or why nobody does' },
};

type ConfirmProps = { id: string; conclusionId: string; way: 'person' | 'outside'; onDone: () => void };

function ConfirmForm({ id, conclusionId, way, onDone }: ConfirmProps): ReactNode {
  const [confirmationId] = useState(newId);
  const labels = LABELS[way];
  const send = useSend(confirmConclusion, { refresh: ['callbacks'], said: 'The conclusion is confirmed.', then: onDone });
  const fields = useFields({ words: '' }, labels, send.error, 'confirm', conclusionId);
  const { words } = fields.values;
  return (
    <Form
      error={send.error}
      labels={labels}
      draft={fields.draft}
      scope="confirm"
      submit={way === 'person' ? 'I was not there and stand behind it' : 'Record it'}
      busy={send.isPending}
      onSubmit={() => send.mutate({ id, confirmationId, conclusionId, way, ...(words.trim() ? { words } : {}) })}
      besides={
        <Button variant="default" onClick={onDone}>
          Go back
        </Button>
      }
    >
      <Textarea {...fields.text('words')} autosize minRows={2} maw="40rem" required={way === 'outside'} />
    </Form>
  );
}
