// Remedies: what the firm does about it, who approved it, and carrying it out.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Group, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import { paysMoney, REMEDIES, REMEDY_STATES, type Callback } from '@backsight/contract/callbacks';
import { parseUsd } from '@backsight/domain/shared/money';
import { decideRemedy, finishRemedy, payRemedy, proposeRemedy } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { BookVisit } from './BookVisit.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

type Remedy = Callback['remedies'][number];

export function Remedies({ callback, judge }: { callback: Callback; judge: boolean }): ReactNode {
  const [open, setOpen] = useOneOpen('remedy');
  const may = callback.state !== 'closed' && callback.state !== 'received';
  return (
    <Section
      title="Remedies"
      actions={
        may && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            Propose a remedy
          </Button>
        ) : null
      }
    >
      {callback.remedies.length === 0 ? (
        <p>None yet. By policy the firm itself does not repair a house that it inspected.</p>
      ) : (
        callback.remedies.map((r) => <OneRemedy key={r.id} remedy={r} judge={judge} closed={callback.state === 'closed'} />)
      )}
      {open ? <Propose callback={callback} onDone={() => setOpen(false)} /> : null}
    </Section>
  );
}

function OneRemedy({ remedy: r, judge, closed }: { remedy: Remedy; judge: boolean; closed: boolean }): ReactNode {
  const { zone } = useMe();
  const decide = useSend(decideRemedy, { refresh: ['callbacks'], said: 'Decided.' });
  const pay = useSend(payRemedy, { refresh: ['callbacks'], said: 'Paid.' });
  const finish = useSend(finishRemedy, { refresh: ['callbacks'], said: 'Carried out.' });
  const money = paysMoney(r.kind);
  return (
    <div style={{ marginBottom: '1rem' }}>
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
      {r.approvals.map((a, at) => (
        <p key={at}>{`${a.decision === 'approved' ? 'Approved' : 'Refused'} by ${a.by}${a.onTheJob ? ', who was on this job' : ''}.`}</p>
      ))}
      <ProblemNote of={decide.error ?? pay.error ?? finish.error} />
      {r.kind === 'revisit' && (r.visit !== null || !closed) ? <BookVisit remedy={r} /> : null}
      {closed ? null : (
        <Group mt="xs">
          {r.state === 'proposed' ? (
            <Button variant="default" loading={decide.isPending} onClick={() => decide.mutate({ id: r.id, decision: 'approved' })}>
              Approve
            </Button>
          ) : null}
          {r.state === 'proposed' || r.state === 'approved' ? (
            <Button variant="default" loading={decide.isPending} onClick={() => decide.mutate({ id: r.id, decision: 'refused' })}>
              Refuse
            </Button>
          ) : null}
          {r.state === 'approved' && money && judge ? (
            <Button loading={pay.isPending} onClick={() => pay.mutate({ id: r.id, paidOn: todayIn(zone) })}>
              Record the payment today
            </Button>
          ) : null}
          {r.state === 'approved' && !money ? (
            <Button loading={finish.isPending} onClick={() => finish.mutate({ id: r.id })}>
              It was carried out
            </Button>
          ) : null}
        </Group>
      )}
    </div>
  );
}

const LABELS = { kind: 'Remedy', cents: 'Amount', payee: 'Who is paid', words: 'Reasons', reason: 'Why you go on nevertheless' };

function Propose({ callback: { id, ownRepair }, onDone }: { callback: Callback; onDone: () => void }): ReactNode {
  const [remedyId] = useState(newId);
  const send = useSend(proposeRemedy, { refresh: ['callbacks'], said: 'Proposed.', then: onDone });
  const fields = useFields(
    { kind: 'goodwill_payment' as keyof typeof REMEDIES, cents: '', payee: '', words: '', reason: '' },
    LABELS,
    send.error,
  );
  const { kind, cents, payee, words, reason } = fields.values;
  const money = paysMoney(kind);
  const own = kind === 'own_repair';
  const amount = cents.trim() === '' ? 0 : parseUsd(cents);
  const submit = () =>
    send.mutate({
      ...{ id, remedyId, kind, cents: money ? (amount ?? -1) : 0, payee: money ? payee : '' },
      ...(words.trim() ? { words } : {}),
      ...(own && reason.trim() ? { reason } : {}),
    });
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={LABELS}
        submit="Propose"
        busy={send.isPending}
        onSubmit={submit}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect
          {...fields.text('kind')}
          data={options(REMEDIES)}
          description="Within your approval limit it is approved at once; above it, a second person decides"
        />
        {money ? (
          <TextInput
            {...fields.text('cents')}
            required
            placeholder="120.00"
            inputMode="decimal"
            error={amount === null ? 'An amount like 120.00' : fields.text('cents').error}
          />
        ) : null}
        {money ? <TextInput {...fields.text('payee')} required /> : null}
        {own ? <OwnRepair rule={ownRepair} /> : null}
        {own && !ownRepair.bars ? <Textarea {...fields.text('reason')} autosize minRows={2} required /> : null}
        <Textarea {...fields.text('words')} autosize minRows={2} required={kind === 'declined'} />
      </Form>
    </Stack>
  );
}

/** The row of the state's rules that speaks of repairs, with its source and how sure that is. */
function OwnRepair({ rule: { state, bars, words, citation, certainty } }: { rule: Callback['ownRepair'] }): ReactNode {
  return (
    <Alert color={bars ? 'red' : 'yellow'} title={bars ? `The rules of ${state} bar it` : 'The firm would judge its own work'}>
      {`${state}: ${words} (${citation}; ${certainty}). `}
      {bars ? 'Pay an independent contractor instead.' : 'Only an owner goes on, with a reason that is kept beside the rule.'}
    </Alert>
  );
}
