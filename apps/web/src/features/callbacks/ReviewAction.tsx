// The review of a corrective action: what was said of it, with the figures of then, and saying it now.
import type { ReactNode } from 'react';
import { Button, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import { REVIEW_RESULTS, type ActionPage as Action } from '@backsight/contract/callbacks/change';
import { reviewAction } from '../../api/correctiveActions.ts';
import { DataTable } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';

type Event = Action['events'][number];

export function ReviewAction({ action: a }: { action: Action }): ReactNode {
  const [open, setOpen] = useOneOpen('review');
  const reviews = a.events.filter(({ kind }) => kind === 'reviewed');
  return (
    <Section
      title="Review"
      actions={
        a.changedAt && a.state !== 'dropped' && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            Say whether it worked
          </Button>
        ) : null
      }
    >
      {a.changedAt ? null : <p>Nothing has changed yet, so there is nothing to review.</p>}
      {a.changedAt && reviews.length === 0 ? <p>Not reviewed yet.</p> : null}
      {reviews.map((review) => (
        <Reviewed key={review.happenedAt} review={review} />
      ))}
      {open ? <Say action={a} onDone={() => setOpen(false)} /> : null}
    </Section>
  );
}

const limits = (lower: number | null, upper: number | null): string =>
  lower === null ? '' : ` (${lower.toFixed(2)} to ${upper === null ? 'no limit' : upper.toFixed(2)})`;
const share = (of: { count: number; total: number } | null): string => (of ? `${of.count} of ${of.total}` : 'none');

const Reviewed = ({ review: r }: { review: Event }): ReactNode => (
  <div style={{ marginBottom: 'var(--bs-space-6)' }}>
    <strong>{REVIEW_RESULTS[r.result!]}</strong>
    {`, said by ${r.by} `}
    <When at={r.happenedAt} />
    {r.nextOn ? (
      <>
        ; next look on <Day day={r.nextOn} />
      </>
    ) : null}
    <p style={{ whiteSpace: 'pre-wrap' }}>{r.words}</p>
    <DataTable
      caption="Figures as they were seen then"
      columns={[
        { key: 'step', head: 'Figures of then', cell: (s) => s.title },
        { key: 'before', head: 'Failures before', cell: (s) => `${s.before.failures} on ${s.before.jobs} jobs` },
        { key: 'after', head: 'Failures after', cell: (s) => `${s.after.failures} on ${s.after.jobs} jobs` },
        { key: 'ratio', head: 'Ratio', cell: (s) => (s.ratio === null ? 'none' : s.ratio.toFixed(2) + limits(s.lower, s.upper)) },
        { key: 'met', head: 'Evidence met', cell: (s) => `${share(s.metBefore)}, then ${share(s.metAfter)}` },
      ]}
      rows={r.figures!.steps}
      rowKey={(s) => s.stepKey}
    />
  </div>
);

const LABELS = { result: 'Did it work?', words: 'What this rests on', nextOn: 'Look again on' };

function Say({ action: a, onDone }: { action: Action; onDone: () => void }): ReactNode {
  const send = useSend(reviewAction, { refresh: ['callbacks'], said: 'Review kept, with the figures of now.', then: onDone });
  const fields = useFields(
    { result: 'too_early' as keyof typeof REVIEW_RESULTS, words: '', nextOn: '' },
    LABELS,
    send.error,
    undefined,
    a.id,
  );
  const { nextOn, ...values } = fields.values;
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Keep the review"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: a.id, ...values, nextOn: values.result === 'too_early' && nextOn ? nextOn : null })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect
          {...fields.text('result')}
          data={Object.entries(REVIEW_RESULTS).map(([value, label]) => ({ value, label }))}
          description={'"It did not work" opens the action again.'}
        />
        <Textarea {...fields.text('words')} required autosize minRows={2} description="No client, address or amount." />
        {values.result === 'too_early' ? <TextInput {...fields.text('nextOn')} type="date" required /> : null}
      </Form>
    </Stack>
  );
}
