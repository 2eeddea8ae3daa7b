// One remedy: who approved it, what it waits for, and what can be done with it now.
import { useState, type ReactNode } from 'react';
import { Button, Group, Stack, TextInput, Textarea } from '@mantine/core';
import { paysMoney, REMEDIES, REMEDY_STATES, type Callback } from '@backsight/contract/callbacks';
import { OFFER_ENDS, type PuttingRight } from '@backsight/contract/callbacks/remedies';
import { decideRemedy, finishRemedy } from '../../api/callbacks.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { BookVisit } from './BookVisit.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { PaperSignature } from './PaperSignature.tsx';
import { PayRemedy } from './PayRemedy.tsx';
import { Amend } from './Propose.tsx';
import { Settle } from './Settle.tsx';

type Remedy = Callback['remedies'][number];
type Props = { callback: Callback; remedy: Remedy; right: PuttingRight | undefined; judge: boolean };

export function OneRemedy({ callback, remedy: r, right, judge }: Props): ReactNode {
  const closed = callback.state === 'closed';
  const money = paysMoney(r.kind);
  return (
    <div style={{ marginBottom: 'var(--bs-space-7)' }}>
      <p>
        <strong>{REMEDIES[r.kind]}</strong>
        {money ? (
          <>
            {' '}
            <Money cents={r.cents} />
            {` to ${r.payee}`}
          </>
        ) : null}
        {`: ${REMEDY_STATES[r.state]}. Proposed by ${r.proposer}.`}
        {r.words ? ` ${r.words}` : ''}
      </p>
      <Approvals remedy={r} />
      <Said remedy={r} right={right} />
      {r.kind === 'revisit' && (r.visit !== null || !closed) ? <BookVisit remedy={r} /> : null}
      {closed ? null : <Acts callback={callback} remedy={r} right={right} judge={judge} />}
    </div>
  );
}

const Approvals = ({ remedy: { approvals, round } }: { remedy: Remedy }): ReactNode =>
  approvals.map((a, at) => (
    <p key={at}>
      {`${a.decision === 'approved' ? 'Approved' : 'Refused'} by ${a.reviewer ? `${a.reviewer} (outside the firm; written down by ${a.by})` : a.by}`}
      {a.onTheJob ? ', who was on this job' : ''}
      {a.round < round ? ', for an earlier amount' : ''}
      {a.reviewer && a.words ? `: ${a.words}` : '.'}
    </p>
  ));

/** What was gone on with, what was offered, and where the release stands. */
function Said({ remedy: { id }, right }: { remedy: Remedy; right: PuttingRight | undefined }): ReactNode {
  const of = <T extends { remedyId: string }>(all: T[] | undefined) => (all ?? []).filter(({ remedyId }) => remedyId === id);
  return (
    <>
      {of(right?.goneOnWith).map((g, at) => (
        <p key={at}>{`Gone on by ${g.by} although: ${g.sentence} Because: ${g.reason}`}</p>
      ))}
      {of(right?.offers).map((o) => (
        <p key={o.id}>
          {'Offered '}
          <Money cents={o.cents} />
          {' through '}
          <Day day={o.validUntil} />
          {`: ${o.state === 'open' ? 'stands' : o.state === 'expired' ? 'expired' : OFFER_ENDS[o.state]}. ${o.words ?? ''}`}
        </p>
      ))}
      {of(right?.releases).map((x) => (
        <p key={x.agreementId}>
          {`${x.title}${x.reviewed ? '' : ' (an example that no attorney has reviewed)'}: `}
          {x.state === 'signed' ? 'signed and sealed. ' : 'not signed by everybody yet. '}
          {x.signers.map((s) => (
            <span key={s.id}>
              {`${s.name}: `}
              {s.signedAt ? (
                <When at={s.signedAt} />
              ) : s.answer === 'declined' ? (
                'declined'
              ) : s.linkOpen ? (
                'has the link'
              ) : (
                'has no open link'
              )}
              {'. '}
            </span>
          ))}
          <a href={`/api/agreements/${x.agreementId}/paper`}>As a PDF</a>
        </p>
      ))}
      <Group gap="sm" my="xs">
        {of(right?.releases).flatMap((x) =>
          x.state === 'open' ? x.signers.filter((s) => !s.signedAt).map((s) => <PaperSignature key={s.id} signer={s} />) : [],
        )}
      </Group>
    </>
  );
}

function Acts({ callback, remedy: r, right, judge }: Props): ReactNode {
  const [amending, setAmending] = useOneOpen(`amend-${r.id}`);
  const [deciding, setDeciding] = useOneOpen(`decide-${r.id}`);
  const finish = useSend(finishRemedy, { refresh: ['callbacks'], said: 'Carried out.' });
  const decide = useSend(decideRemedy, { refresh: ['callbacks'], said: 'Decided.' });
  const open = r.state === 'proposed' || r.state === 'approved';
  const money = paysMoney(r.kind);
  if (amending) return <Amend id={callback.id} remedy={r} judge={judge} onDone={() => setAmending(false)} />;
  if (deciding) return <Decide remedy={r} onDone={() => setDeciding(false)} />;
  return (
    <>
      <ProblemNote of={decide.error ?? finish.error} />
      <Group mt="xs" align="start">
        {r.state === 'proposed' ? (
          <>
            <Button variant="default" loading={decide.isPending} onClick={() => decide.mutate({ id: r.id, decision: 'approved' })}>
              Approve
            </Button>
            <Button variant="default" onClick={() => setDeciding(true)}>
              Approve with words
            </Button>
          </>
        ) : null}
        {open ? (
          <Button variant="default" loading={decide.isPending} onClick={() => decide.mutate({ id: r.id, decision: 'refused' })}>
            Refuse
          </Button>
        ) : null}
        {open && money ? (
          <Button variant="default" onClick={() => setAmending(true)}>
            Change the amount
          </Button>
        ) : null}
        {r.state === 'approved' && money && judge ? <Settle callback={callback} remedy={r} right={right} /> : null}
        {r.state === 'approved' && money && judge ? <PayRemedy remedy={r} right={right} /> : null}
        {r.state === 'approved' && !money && r.kind !== 'insurer_notice' ? (
          <Button loading={finish.isPending} onClick={() => finish.mutate({ id: r.id })}>
            It was carried out
          </Button>
        ) : null}
        {open ? <Follows>What is decided or carried out stays in the file; a new remedy can be proposed beside it.</Follows> : null}
      </Group>
      {r.state === 'approved' && r.kind === 'insurer_notice' ? <p>Record the notice itself under Insurance.</p> : null}
    </>
  );
}

const LABELS = { reviewer: 'Decided by somebody outside the firm', words: 'What was said', goOn: 'Why the firm goes on' };

/** An approval with words: of whoever is signed in, or of an outside reviewer in a firm with one lead inspector. */
function Decide({ remedy, onDone }: { remedy: Remedy; onDone: () => void }): ReactNode {
  const send = useSend(decideRemedy, { refresh: ['callbacks'], said: 'Approved.', then: onDone });
  const fields = useFields({ reviewer: '', words: '', goOn: '' }, LABELS, send.error, undefined, remedy.id);
  const [blank] = useState({ decision: 'approved' as const });
  const said = Object.fromEntries(Object.entries(fields.values).filter(([, text]) => text.trim() !== ''));
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Approve it"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: remedy.id, ...blank, ...said })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <TextInput {...fields.text('reviewer')} description="Blank where you decide. A name is for firms with one lead inspector." />
        <Textarea {...fields.text('words')} autosize minRows={2} />
        <Textarea {...fields.text('goOn')} autosize minRows={2} description="Where something speaks against it" />
      </Form>
    </Stack>
  );
}
