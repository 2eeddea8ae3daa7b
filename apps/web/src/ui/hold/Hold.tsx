// Whether the evidence of a job is held, why, and the way to hold or lift it by hand.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { EvidenceHold } from '@backsight/contract/callbacks/holds';
import { holdEvidence, holdQuery, liftHold } from '../../api/holds.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../Form.tsx';
import { ProblemNote } from '../ProblemNote.tsx';
import { Section } from '../Section.tsx';
import { useFields } from '../useFields.ts';
import { useSend } from '../useSend.ts';
import { When } from '../When.tsx';

type OneHold = EvidenceHold['holds'][number];
const judges = (roles: readonly string[]): boolean => roles.includes('owner') || roles.includes('lead_inspector');

/** `always`: shown where nothing is held as well, so that it can be. */
export function Hold({ jobId, always = false }: { jobId: string; always?: boolean }): ReactNode {
  const me = useMe();
  const [open, setOpen] = useState(false);
  const { data, error } = useQuery(holdQuery(jobId));
  const may = judges(me.roles);
  if (!data || (!data.held && data.holds.length === 0 && !(always && may))) return <ProblemNote of={error} />;
  return (
    <Section
      title="Evidence hold"
      folds
      brief={said(data)}
      actions={
        may && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            Hold it by hand
          </Button>
        ) : null
      }
    >
      {data.holds.map((hold) => (
        <One key={hold.id} hold={hold} mayLift={me.roles.includes('owner')} />
      ))}
      {open ? <Words act="hold" of={jobId} onDone={() => setOpen(false)} /> : null}
    </Section>
  );
}

function said({ held, callbacks }: EvidenceHold): string {
  if (!held) return 'Nothing holds the evidence of this job now.';
  const because = callbacks.length === 0 ? '' : ` as long as callback ${callbacks.join(' and ')} is open`;
  return `Held${because}: nothing of this job is erased, and nobody is taken off it.`;
}

function One({ hold: h, mayLift }: { hold: OneHold; mayLift: boolean }): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <div>
      <p>
        {`Held by ${h.by}, `}
        <When at={h.at} />
        {h.reason ? `: ${h.reason}` : ''}
        {h.liftedAt ? (
          <>
            {`. Lifted by ${h.liftedBy}, `}
            <When at={h.liftedAt} />
            {h.liftReason ? `: ${h.liftReason}` : ''}
          </>
        ) : null}
      </p>
      {mayLift && !h.liftedAt && !open ? (
        <Button variant="default" onClick={() => setOpen(true)}>
          Lift it
        </Button>
      ) : null}
      {open ? <Words act="lift" of={h.id} onDone={() => setOpen(false)} /> : null}
    </div>
  );
}

const LABELS = { hold: { words: 'Why the evidence is held' }, lift: { words: 'Why it is held no longer' } };

function Words({ act, of, onDone }: { act: 'hold' | 'lift'; of: string; onDone: () => void }): ReactNode {
  const [holdId] = useState(newId);
  const labels = LABELS[act];
  const send = useSend((words: string) => (act === 'hold' ? holdEvidence({ jobId: of, holdId, words }) : liftHold({ holdId: of, words })), {
    refresh: ['holds'],
    said: act === 'hold' ? 'The evidence is held.' : 'The hold is lifted.',
    then: onDone,
  });
  const fields = useFields({ words: '' }, labels, send.error, act);
  return (
    <Form
      error={send.error}
      labels={labels}
      scope={act}
      submit={act === 'hold' ? 'Hold the evidence' : 'Lift the hold'}
      busy={send.isPending}
      onSubmit={() => send.mutate(fields.values.words)}
      besides={
        <Button variant="default" onClick={onDone}>
          Go back
        </Button>
      }
    >
      <Textarea {...fields.text('words')} required autosize minRows={2} maw="40rem" />
    </Form>
  );
}
