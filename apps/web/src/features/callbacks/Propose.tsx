// Proposes a remedy, or another amount of one: what speaks against it stands beside the amount.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Checkbox, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { paysMoney, REMEDIES, type Callback } from '@backsight/contract/callbacks';
import { CONFLICTS } from '@backsight/contract/callbacks/remedies';
import { formatUsd, parseUsd } from '@backsight/domain/shared/money';
import { proposeRemedy } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { amendRemedy, conflictsQuery, puttingRightQuery } from '../../api/remedies.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { options } from './words.ts';

type Kind = keyof typeof REMEDIES;
const LABELS = {
  kind: 'Remedy',
  estimateId: 'By which estimate',
  cents: 'Amount',
  payee: 'Who is paid',
  words: 'Reasons',
  reason: 'Why you go on nevertheless',
  goOn: 'Why you go on',
  waitsForRelease: 'Nothing is paid before the settlement release is signed',
};
const EMPTY = { estimateId: '', cents: '', payee: '', words: '', reason: '', goOn: '', waitsForRelease: false };

export function Propose({
  callback: { id, ownRepair },
  judge,
  onDone,
}: {
  callback: Callback;
  judge: boolean;
  onDone: () => void;
}): ReactNode {
  const [remedyId] = useState(newId);
  const right = useQuery(puttingRightQuery(id));
  const send = useSend(proposeRemedy, { refresh: ['callbacks'], said: 'Proposed.', then: onDone });
  const fields = useFields({ kind: 'goodwill_payment' as Kind, ...EMPTY }, LABELS, send.error);
  const { kind, estimateId, cents, payee, words, reason, goOn, waitsForRelease } = fields.values;
  const money = paysMoney(kind);
  const own = kind === 'own_repair';
  const estimates = kind === 'independent_contractor' ? (right.data?.estimates ?? []) : [];
  const amount = cents.trim() === '' ? 0 : parseUsd(cents);
  const choose = (chosen: string) => {
    const one = estimates.find((e) => e.id === chosen);
    fields.setValues((now) => ({
      ...now,
      estimateId: chosen,
      ...(one ? { cents: (one.cents / 100).toFixed(2), payee: one.contractor } : {}),
    }));
  };
  const submit = () =>
    send.mutate({
      ...{ id, remedyId, kind, cents: money ? (amount ?? -1) : 0, payee: money ? payee : '' },
      ...(words.trim() ? { words } : {}),
      ...(own && reason.trim() ? { reason } : {}),
      ...(goOn.trim() ? { goOn } : {}),
      ...(money && estimateId ? { estimateId } : {}),
      ...(money ? { waitsForRelease } : {}),
    });
  return (
    <Stack maw="40rem" mb="md">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Propose"
        busy={send.isPending}
        onSubmit={submit}
        besides={<Back onBack={onDone} />}
      >
        <NativeSelect
          {...fields.text('kind')}
          data={options(REMEDIES)}
          description="Within your approval limit it is approved at once; above it, a second person decides. The limit holds for everything this callback costs."
        />
        {estimates.length > 0 ? (
          <NativeSelect
            {...fields.text('estimateId')}
            onChange={(event) => choose(event.currentTarget.value)}
            data={[
              { value: '', label: 'No estimate' },
              ...estimates.map((e) => ({ value: e.id, label: `${e.contractor}, ${formatUsd(e.cents)}` })),
            ]}
          />
        ) : null}
        {money ? <Amount fields={fields} amount={amount} /> : null}
        {money ? <Conflicts id={id} kind={kind} cents={amount ?? 0} fields={fields} judge={judge} /> : null}
        {own ? <OwnRepair rule={ownRepair} /> : null}
        {own && !ownRepair.bars ? <Textarea {...fields.text('reason')} autosize minRows={2} required /> : null}
        <Textarea {...fields.text('words')} autosize minRows={2} required={kind === 'declined' || estimateId !== ''} />
        {money ? <Checkbox {...fields.check('waitsForRelease')} mt="sm" /> : null}
      </Form>
    </Stack>
  );
}

const Back = ({ onBack }: { onBack: () => void }): ReactNode => (
  <Button variant="default" onClick={onBack}>
    Go back
  </Button>
);

type Texts = { text: (name: 'cents' | 'payee' | 'goOn') => { error?: ReactNode } & Record<string, unknown> };

const Amount = ({ fields, amount }: { fields: unknown; amount: number | null }): ReactNode => {
  const { text } = fields as Texts;
  return (
    <>
      <TextInput
        {...text('cents')}
        required
        placeholder="120.00"
        inputMode="decimal"
        error={amount === null ? 'An amount like 120.00' : text('cents').error}
      />
      <TextInput {...text('payee')} required />
    </>
  );
};

/** What speaks against so much, as it is typed. It never bars: owner and lead inspector go on with a reason. */
function Conflicts({
  id,
  kind,
  cents,
  fields,
  judge,
}: {
  id: string;
  kind: Kind;
  cents: number;
  fields: unknown;
  judge: boolean;
}): ReactNode {
  const { text } = fields as Texts;
  const { data } = useQuery({ ...conflictsQuery(id, { kind, cents }), enabled: cents > 0 });
  if (!data || cents === 0) return null;
  const weighty = data.conflicts.some(({ needsReason }) => needsReason);
  return (
    <>
      {data.committedCents > 0 ? (
        <p>{`${formatUsd(data.committedCents)} were agreed before; with this it is ${formatUsd(data.committedCents + cents)}.`}</p>
      ) : null}
      {data.conflicts.map((c) => (
        <Alert key={c.code} my="sm" title={CONFLICTS[c.code]}>
          {c.text}
        </Alert>
      ))}
      {weighty && judge ? <Textarea {...text('goOn')} autosize minRows={2} required /> : null}
      {weighty && !judge ? <p>It waits for an owner or lead inspector, who says why the firm goes on.</p> : null}
    </>
  );
}

/** The row of the state's rules that speaks of repairs, with its source and how sure that is. */
function OwnRepair({ rule: { state, bars, words, citation, certainty } }: { rule: Callback['ownRepair'] }): ReactNode {
  return (
    <Alert {...(bars ? { color: 'red' } : {})} title={bars ? `The rules of ${state} bar it` : 'The firm would judge its own work'}>
      {`${state}: ${words} (${citation}; ${certainty}). `}
      {bars ? 'Pay an independent contractor instead.' : 'Only an owner goes on, with a reason that is kept beside the rule.'}
    </Alert>
  );
}

const AMEND = { cents: 'New amount', payee: 'Who is paid', words: 'Why it changes', goOn: 'Why you go on' };
type Remedy = Callback['remedies'][number];

/** Another amount or payee of a remedy: decided anew. */
export function Amend({ id, remedy, judge, onDone }: { id: string; remedy: Remedy; judge: boolean; onDone: () => void }): ReactNode {
  const send = useSend(amendRemedy, { refresh: ['callbacks'], said: 'Changed; it is decided anew.', then: onDone });
  const fields = useFields(
    { cents: (remedy.cents / 100).toFixed(2), payee: remedy.payee, words: '', goOn: '' },
    AMEND,
    send.error,
    undefined,
    remedy.id,
  );
  const { cents, goOn, ...rest } = fields.values;
  const amount = parseUsd(cents);
  const submit = () => send.mutate({ id: remedy.id, cents: amount ?? -1, ...rest, ...(goOn.trim() ? { goOn } : {}) });
  return (
    <Stack maw="40rem" w="100%">
      <Form
        error={send.error}
        labels={AMEND}
        draft={fields.draft}
        submit="Change it"
        busy={send.isPending}
        onSubmit={submit}
        besides={<Back onBack={onDone} />}
      >
        <Amount fields={fields} amount={amount} />
        {amount !== null && amount > remedy.cents ? (
          <Conflicts
            id={id}
            kind={remedy.kind}
            cents={amount - (remedy.state === 'approved' ? remedy.cents : 0)}
            fields={fields}
            judge={judge}
          />
        ) : null}
        <Textarea {...fields.text('words')} autosize minRows={2} required />
      </Form>
    </Stack>
  );
}
